import SVGtoPDF from 'svg-to-pdfkit';
import type { Block, Fact } from './paper.ts';
import { MARGIN, needs, space, struct, widthOf, type Doc, type Element } from './pdf-blocks.ts';

type BenchBlock = Extract<Block, { kind: 'step' | 'square' }>;
type Step = Extract<Block, { kind: 'step' }>;

/** In points. What is read at the fire is read from an arm's length. */
const TEXT = 14;
const MARK = 26;
const MARK_WIDTH = 46;
const LABEL_WIDTH = 108;
const SQUARE = 85;
const ROW_GAP = 4;

export function isOfBench(block: Block): block is BenchBlock {
  return block.kind === 'step' || block.kind === 'square';
}

export function setBenchBlock(doc: Doc, block: BenchBlock): Element {
  return block.kind === 'step' ? step(doc, block) : square(doc, block);
}

/** A number at the edge, beside it all that has to be known. It is kept on one page where one page holds it. */
function step(doc: Doc, block: Step): Element {
  const { mark, title, rows, blanks } = block;
  const left = MARGIN + MARK_WIDTH;
  const width = widthOf(doc) - MARK_WIDTH;
  return struct(doc, 'Sect', [
    struct(doc, 'H2', () => {
      space(doc, 16);
      needs(doc, Math.min(heightOf(doc, block), doc.page.height - 2 * MARGIN - 1));
      const { y } = doc;
      doc
        .moveTo(MARGIN, y)
        .lineTo(MARGIN + widthOf(doc), y)
        .lineWidth(1.5)
        .stroke('#000');
      doc
        .font('bold')
        .fontSize(MARK)
        .text(mark, MARGIN, y + 6, { width: MARK_WIDTH, lineBreak: false });
      doc.fontSize(TEXT + 1).text(title, left, y + 9, { width });
      doc.y = Math.max(doc.y, y + MARK + 8) + ROW_GAP;
    }),
    struct(
      doc,
      'Table',
      rows.map((row) => stepRow(doc, row, { left, width })),
    ),
    ...(blanks.length > 0 ? [toWriteOn(doc, blanks, { left, width })] : []),
  ]);
}

interface Room {
  left: number;
  width: number;
}

function stepRow(doc: Doc, row: Fact, { left, width }: Room): Element {
  const start = { y: 0 };
  return struct(doc, 'TR', [
    struct(doc, { type: 'TH', scope: 'Row' }, () => {
      needs(doc, rowHeight(doc, row, width));
      start.y = doc.y;
      doc
        .font('bold')
        .fontSize(TEXT)
        .text(row.label, left, start.y, { width: LABEL_WIDTH - 8 });
    }),
    struct(doc, 'TD', () => {
      const below = doc.y;
      doc
        .font(row.strong ? 'bold' : 'body')
        .fontSize(TEXT)
        .text(row.value, left + LABEL_WIDTH, start.y, { width: width - LABEL_WIDTH });
      doc.y = Math.max(below, doc.y) + ROW_GAP;
    }),
  ]);
}

function rowHeight(doc: Doc, { label, value, strong }: Fact, width: number): number {
  const labelHeight = doc
    .font('bold')
    .fontSize(TEXT)
    .heightOfString(label, { width: LABEL_WIDTH - 8 });
  const valueHeight = doc.font(strong ? 'bold' : 'body').heightOfString(value, { width: width - LABEL_WIDTH });
  return Math.max(labelHeight, valueHeight) + ROW_GAP;
}

function heightOf(doc: Doc, { title, rows, blanks }: Step): number {
  const width = widthOf(doc) - MARK_WIDTH;
  const titleHeight = doc
    .font('bold')
    .fontSize(TEXT + 1)
    .heightOfString(title, { width });
  const rowsHeight = rows.reduce((sum, row) => sum + rowHeight(doc, row, width), 0);
  return Math.max(titleHeight + 9, MARK + 8) + ROW_GAP + rowsHeight + (blanks.length > 0 ? 2 * TEXT + 8 : 0);
}

/** Words with a line after each, side by side. */
function toWriteOn(doc: Doc, blanks: readonly string[], { left, width }: Room): Element {
  return struct(doc, 'P', () => {
    doc.font('body').fontSize(TEXT);
    needs(doc, 2 * TEXT + 8);
    const y = doc.y + 14;
    const share = width / blanks.length;
    for (const [index, label] of blanks.entries()) {
      const x = left + index * share;
      doc.text(label, x, y, { lineBreak: false });
      doc
        .moveTo(x + doc.widthOfString(label) + 6, y + TEXT)
        .lineTo(x + share - 10, y + TEXT)
        .lineWidth(0.7)
        .stroke('#000');
    }
    doc.x = MARGIN;
    doc.y = y + TEXT + 8;
  });
}

function square(doc: Doc, { svg, caption }: Extract<Block, { kind: 'square' }>): Element {
  const top = { y: 0 };
  return struct(doc, 'Sect', [
    struct(doc, { type: 'Figure', alt: caption }, () => {
      space(doc, 8);
      needs(doc, SQUARE);
      top.y = doc.y;
      SVGtoPDF(doc, svg, MARGIN - 8, top.y, { width: SQUARE, height: SQUARE });
    }),
    struct(doc, 'Caption', () => {
      doc
        .font('body')
        .fontSize(9)
        .text(caption, MARGIN + SQUARE + 4, top.y + SQUARE / 2 - 10, { width: widthOf(doc) - SQUARE - 4 });
      doc.x = MARGIN;
      doc.y = Math.max(doc.y, top.y + SQUARE);
    }),
  ]);
}
