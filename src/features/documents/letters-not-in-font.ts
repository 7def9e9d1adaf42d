import { Problem } from '../../platform/http/problem.ts';
import type { Doc, Font } from './pdf-blocks.ts';
import type { Block, Paper } from './paper.ts';

// The layout sets words from left to right, so words of these scripts would stand in the wrong order.
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]/u;

/** More are not listed one by one. */
const MOST_LETTERS = 20;

/** @throws {Problem} letters-not-in-font */
export function holdToFonts(doc: Doc, blocks: readonly Block[]): void {
  const letters = lettersNotInFont(doc, { blocks });
  if (letters.length === 0) return;
  const shown = letters
    .slice(0, MOST_LETTERS)
    .map((letter) => `${letter} (U+${letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')})`);
  if (letters.length > MOST_LETTERS) shown.push('and more');
  throw new Problem(
    'letters-not-in-font',
    `Cannot set this as PDF: its fonts cannot show ${shown.join(', ')}. The page (?format=html) shows every letter your machine knows: print or save that`,
    { letters },
  );
}

/** The letters of a paper that its PDF could not show, each once, in the order of the paper. */
function lettersNotInFont(doc: Doc, { blocks }: Pick<Paper, 'blocks'>): string[] {
  const missing = new Set<string>();
  for (const block of blocks) {
    for (const [font, texts] of Object.entries(textsOf(block)) as [Font, readonly string[]][]) {
      const has = glyphsOf(doc, font);
      for (const letter of texts.join('').replaceAll(/\s/g, ''))
        if (!has(letter.codePointAt(0)!) || RIGHT_TO_LEFT.test(letter)) missing.add(letter);
    }
  }
  return [...missing];
}

function glyphsOf(doc: Doc, font: Font): (codePoint: number) => boolean {
  // The document tells nobody which letters its font has; the font it holds does.
  const { _font: set } = doc.font(font) as unknown as { _font: { font: { hasGlyphForCodePoint: (one: number) => boolean } } };
  return (codePoint) => set.font.hasGlyphForCodePoint(codePoint);
}

/** What a block says, by the font it is set in. */
function textsOf(block: Block): Partial<Record<Font, readonly string[]>> {
  switch (block.kind) {
    case 'letterhead':
      return { bold: [block.name], body: block.lines };
    case 'title':
    case 'heading':
    case 'notice':
      return { bold: [block.text] };
    case 'paragraph':
      return { body: [block.text] };
    case 'address':
      return { body: block.lines };
    case 'list':
    case 'checks':
      return { body: block.items };
    case 'blanks':
      return { body: block.labels };
    case 'facts': {
      const said = ({ label, value }: (typeof block.rows)[number]) => [label, value];
      return {
        bold: block.rows.filter(({ strong }) => strong).flatMap(said),
        body: block.rows.filter(({ strong }) => !strong).flatMap(said),
      };
    }
    case 'table':
      return { bold: [...block.head, ...(block.total ?? [])], body: block.rows.flat() };
    case 'step':
      return {
        bold: [block.mark, block.title, ...block.rows.map(({ label }) => label)],
        body: [...block.rows.map(({ value }) => value), ...block.blanks],
      };
    case 'square':
    case 'drawing':
      return { body: [block.caption] };
  }
}
