import { setImmediate as nextTurn } from 'node:timers/promises';
import PdfKit from 'pdfkit';
import SVGtoPDF from 'svg-to-pdfkit';
import { holdToFonts } from '../documents/index.ts';
import type { Label } from './label.ts';
import { pagesOf, type LabelRun } from './label-run.ts';
import { LABEL_FONTS, labelSvg } from './label-svg.ts';

const POINTS_PER_MM = 72 / 25.4;

/** Labels as a tagged PDF, black on white: a page a label, or sheets. The same labels are the same bytes. */
export async function labelPdf({
  title,
  author,
  language,
  writtenAt,
  run,
}: {
  title: string;
  author: string;
  language: string;
  writtenAt: string;
  run: LabelRun;
}): Promise<Buffer> {
  const { size, sheet } = run;
  const paper = sheet ?? size;
  const writtenOn = new Date(writtenAt);
  const doc = new PdfKit({
    size: [paper.widthMm * POINTS_PER_MM, paper.heightMm * POINTS_PER_MM],
    margin: 0,
    pdfVersion: '1.7',
    tagged: true,
    lang: language,
    displayTitle: true,
    autoFirstPage: false,
    info: {
      Title: title,
      Author: author,
      Creator: 'Hearthbook',
      Producer: 'Hearthbook',
      CreationDate: writtenOn,
      ModDate: writtenOn,
    },
  });
  for (const [name, file] of Object.entries(LABEL_FONTS)) doc.registerFont(name, file);
  const said = run.labels.flatMap(({ lines }) => lines);
  holdToFonts(
    doc,
    said.map(({ text, bold }) => ({ kind: bold ? 'notice' : 'paragraph', text })),
  );
  const whole = doc.struct('Document');
  doc.addStructure(whole);
  const place = (label: Label, x: number, y: number) =>
    whole.add(
      doc.struct('Figure', { alt: wordsOf(label) }, () => {
        SVGtoPDF(doc, labelSvg(label, size), x * POINTS_PER_MM, y * POINTS_PER_MM, {
          width: size.widthMm * POINTS_PER_MM,
          height: size.heightMm * POINTS_PER_MM,
          fontCallback: (_family, bold) => (bold ? 'bold' : 'body'),
        });
      }),
    );
  for (const page of pagesOf(run)) {
    doc.addPage();
    for (const [index, label] of page.entries()) {
      const column = sheet ? index % sheet.columns : 0;
      const row = sheet ? Math.floor(index / sheet.columns) : 0;
      if (!label) continue;
      place(
        label,
        (sheet?.leftMm ?? 0) + column * (size.widthMm + (sheet?.columnGapMm ?? 0)),
        (sheet?.topMm ?? 0) + row * size.heightMm,
      );
      // Two hundred of them take seconds, and others want their answers.
      await nextTurn();
    }
  }
  whole.end();
  const chunks: Buffer[] = [];
  return new Promise((resolve, reject) => {
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
    doc.end();
  });
}

function wordsOf({ lines }: Label): string {
  return lines.map(({ text }) => text).join(', ');
}
