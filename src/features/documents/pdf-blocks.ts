import SVGtoPDF from 'svg-to-pdfkit';
import type { Block, Fact } from './paper.ts';

export type Doc = PDFKit.PDFDocument;
/** Registered in the document by these names. */
export type Font = 'body' | 'bold';
export type Element = PDFKit.PDFStructureElement;

/** In points. */
export const MARGIN = 57;
const TEXT = 10;
const GAP = 6;
const MOST_DRAWING_HEIGHT = 255;

interface Style {
  font?: Font;
  size?: number;
  /** Space above, left out at the top of a page. */
  above?: number;
  /** What has to have room below it on the same page. */
  below?: number;
}

/** All but what is read at the bench. */
export type PlainBlock = Exclude<Block, { kind: 'step' | 'square' }>;

/** One block of a paper, set below what is there already. A heading stays with what comes next. */
export function setBlock(doc: Doc, block: PlainBlock, next: Block | undefined): Element {
  switch (block.kind) {
    case 'letterhead':
      return struct(doc, 'Sect', [
        text(doc, 'P', block.name, { font: 'bold', size: 13 }),
        ...block.lines.map((line) => text(doc, 'P', line, { size: 9 })),
      ]);
    case 'address':
      return struct(
        doc,
        'Sect',
        block.lines.map((line, index) => text(doc, 'P', line, { above: index === 0 ? 26 : 0 })),
      );
    case 'title':
      return text(doc, 'H1', block.text, { font: 'bold', size: 16, above: 26 });
    case 'heading':
      return text(doc, 'H2', block.text, { font: 'bold', size: 11, above: 14, below: togetherOf(doc, next) });
    case 'paragraph':
      return text(doc, 'P', block.text, { above: GAP });
    case 'notice':
      return text(doc, 'P', block.text, { font: 'bold', above: GAP });
    case 'list':
      return listed(doc, '•', block.items);
    case 'checks':
      return listed(doc, '☐', block.items);
    case 'facts':
      return struct(
        doc,
        'Table',
        block.rows.map((row, index) =>
          factRow(doc, row, {
            above: index === 0 ? GAP + 2 : 3,
            together: index === 0 ? togetherOf(doc, block) : 0,
            after: index === block.rows.length - 1 ? GAP - 2 : 0,
          }),
        ),
      );
    case 'table':
      return table(doc, block);
    case 'blanks':
      return struct(
        doc,
        'Sect',
        block.labels.map((label) => blank(doc, label)),
      );
    case 'drawing':
      return struct(doc, 'Sect', [drawing(doc, block), text(doc, 'Caption', block.caption, { size: 9, above: 4 })]);
  }
}

export function widthOf(doc: Doc): number {
  return doc.page.width - 2 * MARGIN;
}

function bottomOf(doc: Doc): number {
  return doc.page.height - MARGIN;
}

/** Goes to the next page unless so much is left of this one. */
export function needs(doc: Doc, height: number): void {
  // Continuing closes what is marked on this page and opens it again on the next.
  if (doc.y + height > bottomOf(doc)) doc.continueOnNewPage();
}

function text(doc: Doc, type: string, words: string, { font = 'body', size = TEXT, above = 0, below = 0 }: Style): Element {
  return struct(doc, type, () => {
    doc.font(font).fontSize(size);
    space(doc, above);
    needs(doc, below === 0 ? 0 : doc.currentLineHeight(true) + below);
    doc.text(words, MARGIN, doc.y, { width: widthOf(doc) });
  });
}

export function space(doc: Doc, above: number): void {
  if (doc.y > MARGIN + 1) doc.y += above;
}

function listed(doc: Doc, mark: string, items: readonly string[]): Element {
  return struct(
    doc,
    'L',
    items.map((item) =>
      struct(doc, 'LI', [
        struct(doc, 'Lbl', () => {
          doc.font('body').fontSize(TEXT);
          space(doc, 3);
          needs(doc, doc.heightOfString(item, { width: widthOf(doc) - 16 }));
          const { y } = doc;
          doc.text(mark, MARGIN, y, { lineBreak: false });
          doc.y = y;
        }),
        struct(doc, 'LBody', () => {
          doc
            .font('body')
            .fontSize(TEXT)
            .text(item, MARGIN + 16, doc.y, { width: widthOf(doc) - 16 });
        }),
      ]),
    ),
  );
}

const LABEL_SHARE = 0.36;
const MOST_TOGETHER = 260;

/** Height that is kept on one page: all of a few facts, two lines of anything else. */
function togetherOf(doc: Doc, block: Block | undefined): number {
  if (block?.kind !== 'facts') return 3 * TEXT;
  doc.font('body').fontSize(TEXT);
  const height = block.rows.reduce((sum, row) => sum + factHeight(doc, row) + 3, 0);
  return Math.min(height, MOST_TOGETHER);
}

function factColumns(doc: Doc): { labelWidth: number; valueWidth: number } {
  const labelWidth = widthOf(doc) * LABEL_SHARE;
  return { labelWidth, valueWidth: widthOf(doc) - labelWidth - 10 };
}

function factHeight(doc: Doc, { label, value }: Fact): number {
  const { labelWidth, valueWidth } = factColumns(doc);
  return Math.max(doc.heightOfString(label, { width: labelWidth }), doc.heightOfString(value, { width: valueWidth }));
}

function factRow(doc: Doc, row: Fact, { above, together, after }: { above: number; together: number; after: number }): Element {
  const { label, value, strong = false } = row;
  const font = strong ? 'bold' : 'body';
  const start = { y: 0 };
  return struct(doc, 'TR', [
    struct(doc, { type: 'TH', scope: 'Row' }, () => {
      doc.font(font).fontSize(TEXT);
      space(doc, above);
      needs(doc, Math.max(together, factHeight(doc, row)));
      start.y = doc.y;
      doc.text(label, MARGIN, start.y, { width: factColumns(doc).labelWidth });
    }),
    struct(doc, 'TD', () => {
      const { labelWidth, valueWidth } = factColumns(doc);
      const below = doc.y;
      doc.font(font).text(value, MARGIN + labelWidth + 10, start.y, { width: valueWidth });
      doc.y = Math.max(below, doc.y) + after;
    }),
  ]);
}

/** Of a cell that is written in by hand. */
const WRITE_HEIGHT = 30;

function table(doc: Doc, { head, rows, total, amounts, toWriteIn = false, shares }: Extract<Block, { kind: 'table' }>): Element {
  const last = head.length - 1;
  // Amounts stand in a narrow column at the end, to the right; the rest share what is left, the first taking twice.
  const usual = (column: number) => {
    const end = amounts ? 0.26 : 1 / (last + 2);
    return column === last && amounts ? end : ((column === 0 ? 2 : 1) * (1 - (amounts ? end : 0))) / (last + (amounts ? 1 : 2));
  };
  const share = (column: number) => shares?.[column] ?? usual(column);
  const widths = head.map((_one, index) => widthOf(doc) * share(index) - (index === last ? 0 : 8));
  const leftOf = (column: number) => MARGIN + widths.slice(0, column).reduce((sum, width) => sum + width + 8, 0);
  const heightOf = (cells: readonly string[], type: 'TH' | 'TD') =>
    Math.max(
      toWriteIn && type === 'TD' ? WRITE_HEIGHT : 0,
      ...cells.map((one, index) => doc.heightOfString(one, { width: widths[index]! })),
    );
  const cellAt = (cell: string, column: number, y: number) =>
    doc.text(cell, leftOf(column), y, { width: widths[column]!, align: amounts && column === last ? 'right' : 'left' });
  const ruleBelow = (top: number, bottom: number) => {
    doc.moveTo(MARGIN, bottom).lineTo(MARGIN + widthOf(doc), bottom);
    for (const column of toWriteIn ? widths.keys() : [])
      if (column > 0) doc.moveTo(leftOf(column) - 4, top).lineTo(leftOf(column) - 4, bottom);
    doc.lineWidth(0.5).stroke('#000');
  };
  /** On a page that the table goes on to; those who have it read to them know the columns. */
  const headAgain = () => {
    doc.font('bold').fontSize(TEXT);
    const { y } = doc;
    const next = y + heightOf(head, 'TH') + 3;
    for (const [column, cell] of head.entries()) cellAt(cell, column, y);
    ruleBelow(y, next);
    doc.y = next + 4;
  };
  const row = (cells: readonly string[], type: 'TH' | 'TD', font: Font): Element => {
    const start = { y: 0, next: 0 };
    return struct(
      doc,
      'TR',
      cells.map((cell, column) =>
        struct(doc, type === 'TH' ? { type, scope: 'Column' } : { type }, () => {
          doc.font(font).fontSize(TEXT);
          if (column === 0) {
            const height = heightOf(cells, type);
            const { page } = doc;
            space(doc, type === 'TH' ? 12 : 4);
            needs(doc, height + 4);
            if (doc.page !== page && type === 'TD') headAgain();
            doc.font(font);
            start.y = doc.y;
            start.next = start.y + height + 3;
            ruleBelow(start.y - 4, start.next);
          }
          cellAt(cell, column, start.y);
          doc.y = start.next;
        }),
      ),
    );
  };
  return struct(doc, 'Table', [
    row(head, 'TH', 'bold'),
    ...rows.map((cells) => row(cells, 'TD', 'body')),
    ...(total ? [row(total, 'TD', 'bold')] : []),
  ]);
}

function blank(doc: Doc, label: string): Element {
  return struct(doc, 'P', () => {
    doc.font('body').fontSize(TEXT);
    space(doc, 16);
    needs(doc, 16);
    const { y } = doc;
    const words = `${label}:`;
    doc.text(words, MARGIN, y, { lineBreak: false });
    const from = MARGIN + doc.widthOfString(words) + 8;
    doc
      .moveTo(from, y + TEXT + 1)
      .lineTo(MARGIN + widthOf(doc), y + TEXT + 1)
      .lineWidth(0.5)
      .stroke('#000');
    doc.y = y + TEXT + 4;
  });
}

function drawing(doc: Doc, { svg, caption }: Extract<Block, { kind: 'drawing' }>): Element {
  const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.map(Number) as [number, number, number];
  const scale = Math.min(widthOf(doc) / width, MOST_DRAWING_HEIGHT / height);
  return struct(doc, { type: 'Figure', alt: caption }, () => {
    space(doc, 12);
    needs(doc, height * scale + 20);
    const { y } = doc;
    SVGtoPDF(doc, svg, MARGIN, y, {
      width: width * scale,
      height: height * scale,
      fontCallback: (_family, bold) => (bold ? 'bold' : 'body'),
    });
    doc.x = MARGIN;
    doc.y = y + height * scale;
  });
}

/**
 * An element of the structure for those who have the paper read to them. What it holds is set when it is put into the
 * document, one after the other.
 */
export function struct(
  doc: Doc,
  as: string | { type: string; alt?: string; scope?: 'Row' | 'Column' },
  holds: Element[] | (() => void),
): Element {
  const { type, ...options } = typeof as === 'string' ? { type: as } : as;
  return doc.struct(type, options, holds);
}
