import { setImmediate as nextTurn } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import PdfKit from 'pdfkit';
import { holdToFonts } from './letters-not-in-font.ts';
import type { Paper, PaperSize } from './paper.ts';
import { isOfBench, setBenchBlock } from './pdf-bench-blocks.ts';
import { MARGIN, setBlock, widthOf, type Doc, type Font } from './pdf-blocks.ts';

const FONTS: Readonly<Record<Font, string>> = {
  body: fileURLToPath(import.meta.resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf')),
  bold: fileURLToPath(import.meta.resolve('dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf')),
};

/** In points. */
const SIZES: Readonly<Record<PaperSize, string>> = { A4: 'A4', letter: 'LETTER' };

/**
 * A paper as a tagged PDF with its fonts in it, black on white. The same paper is the same bytes.
 *
 * @param pageOf the words under each page
 * @throws {Problem} letters-not-in-font rather than a box in place of a letter
 */
export async function pdfPaper(
  { language, title, author, size, writtenAt, footer, blocks }: Paper,
  pageOf: (page: number, pages: number) => string,
): Promise<Buffer> {
  const writtenOn = new Date(writtenAt);
  const doc = new PdfKit({
    size: SIZES[size],
    margin: MARGIN,
    pdfVersion: '1.7',
    tagged: true,
    lang: language,
    displayTitle: true,
    bufferPages: true,
    info: {
      Title: title,
      Author: author,
      Creator: 'Hearthbook',
      Producer: 'Hearthbook',
      CreationDate: writtenOn,
      ModDate: writtenOn,
    },
  });
  for (const [name, file] of Object.entries(FONTS)) doc.registerFont(name, file);
  holdToFonts(doc, blocks);
  const whole = doc.struct('Document');
  doc.addStructure(whole);
  for (const [index, block] of blocks.entries()) {
    whole.add(isOfBench(block) ? setBenchBlock(doc, block) : setBlock(doc, block, blocks[index + 1]));
    // The sheets of a piece with many heats take seconds, and others want their answers.
    await nextTurn();
  }
  whole.end();
  numberPages(doc, (page, pages) => (footer === undefined ? '' : `${footer} – `) + pageOf(page, pages));
  const chunks: Buffer[] = [];
  return new Promise((resolve, reject) => {
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
    doc.end();
  });
}

/** Under every page, and no part of what is read aloud. */
function numberPages(doc: Doc, pageOf: (page: number, pages: number) => string): void {
  const { start, count } = doc.bufferedPageRange();
  if (count === 1) return;
  for (let page = 0; page < count; page++) {
    doc.switchToPage(start + page);
    // Below the margin, where text would begin a new page.
    doc.page.margins.bottom = 0;
    doc.markContent('Artifact', { type: 'Pagination' });
    doc
      .font('body')
      .fontSize(8)
      .text(pageOf(page + 1, count), MARGIN, doc.page.height - MARGIN + 16, {
        width: widthOf(doc),
        align: 'right',
        lineBreak: false,
      });
    doc.endMarkedContent();
    doc.page.margins.bottom = MARGIN;
  }
}
