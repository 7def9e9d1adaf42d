import { fileURLToPath } from 'node:url';
import PdfKit from 'pdfkit';
import { element, escapeMarkup } from '../../../shared/drawing/svg-text.ts';
import { squareModules, squarePath } from '../documents/index.ts';
import type { Label, LabelSize } from './label.ts';
import { setLines, type Measure } from './set-lines.ts';

export const LABEL_FONTS = {
  body: fileURLToPath(import.meta.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf')),
  bold: fileURLToPath(import.meta.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf')),
};

const MARGIN_MM = 1;
const FAMILY = "'DejaVu Sans Condensed', 'DejaVu Sans', Arial, sans-serif";

/**
 * One label in black, in user units of 1 mm: words, and the square beside them, or below them on a high label. Every line
 * has the width it was measured with, so that it fits in any font.
 */
export function labelSvg({ title, lines, address }: Label, size: LabelSize): string {
  const { widthMm, heightMm } = size;
  const squareMm = squareSideMm(size);
  const below = isHigh(size);
  const room = {
    widthMm: widthMm - (below ? 0 : squareMm) - 2 * MARGIN_MM,
    heightMm: heightMm - (below ? squareMm : 0) - 2 * MARGIN_MM,
  };
  const words = setLines(lines, room, measure()).map((row) =>
    element(
      'text',
      {
        x: MARGIN_MM,
        y: MARGIN_MM + row.baselineMm,
        'font-family': FAMILY,
        'font-size': String(Number(row.sizeMm.toFixed(3))),
        'font-weight': row.bold ? 'bold' : 'normal',
        textLength: row.widthMm,
        lengthAdjust: 'spacingAndGlyphs',
      },
      escapeMarkup(row.text),
    ),
  );
  const square = { sideMm: squareMm, xMm: below ? (widthMm - squareMm) / 2 : widthMm - squareMm, yMm: heightMm - squareMm };
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${widthMm} ${heightMm}`,
      width: `${widthMm}mm`,
      height: `${heightMm}mm`,
      role: 'img',
      'aria-label': title,
    },
    ...words,
    squarePath(address, { side: square.sideMm, x: square.xMm, y: below ? square.yMm : (heightMm - squareMm) / 2 }),
  );
}

/** How wide a module of the square comes out, in mm: a scanner and a printer of labels need about a quarter. */
export function moduleMm(address: string, size: LabelSize): number {
  return squareSideMm(size) / squareModules(address);
}

function isHigh({ widthMm, heightMm }: LabelSize): boolean {
  return heightMm > widthMm;
}

/** With its quiet zone. */
function squareSideMm(size: LabelSize): number {
  return isHigh(size) ? Math.min(size.widthMm, size.heightMm / 2) : Math.min(size.heightMm, size.widthMm / 2);
}

let kept: Measure | undefined;

/** By the fonts of the PDF; they are read when the first label is asked for. */
function measure(): Measure {
  if (kept) return kept;
  const doc = new PdfKit({ autoFirstPage: false });
  doc.registerFont('body', LABEL_FONTS.body);
  doc.registerFont('bold', LABEL_FONTS.bold);
  kept = (text, bold) =>
    doc
      .font(bold ? 'bold' : 'body')
      .fontSize(1)
      .widthOfString(text);
  return kept;
}
