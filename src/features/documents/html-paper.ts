import { createHash } from 'node:crypto';
import { escapeMarkup } from '../../../shared/drawing/svg-text.ts';
import type { Block, Fact, Paper, PaperSize } from './paper.ts';

const STYLE = `
@page { margin: 20mm }
* { box-sizing: border-box }
body { background: #fff; color: #000; font: 11pt/1.45 'DejaVu Sans', system-ui, sans-serif; margin: 2rem auto; max-width: 46rem; padding: 0 1rem }
header { margin-bottom: 2rem }
header strong { display: block; font-size: 1.2em }
address { font-style: normal; margin-bottom: 2rem; white-space: pre-line }
h1 { font-size: 1.5em; margin: 1.5rem 0 1rem }
h2 { font-size: 1.05em; margin: 1.5rem 0 .4rem }
h1, h2 { break-after: avoid }
p { margin: .4rem 0; white-space: pre-line; overflow-wrap: anywhere }
p.notice { border: 2px solid; font-weight: bold; padding: .4rem .6rem }
ul.checks { list-style: none; padding-left: 0 }
ul.checks li::before { content: '\\2610\\00a0' }
dl { display: grid; gap: .25rem 1.5rem; grid-template-columns: minmax(9rem, auto) 1fr; margin: .6rem 0 }
dd { margin: 0; overflow-wrap: anywhere; white-space: pre-line }
.strong { font-weight: bold }
table { border-collapse: collapse; margin: .6rem 0; width: 100% }
th, td { border-bottom: 1px solid; padding: .3rem .6rem .3rem 0; text-align: left; vertical-align: top }
td { white-space: pre-line }
table.amounts :is(th, td):last-child { padding-right: 0; text-align: right; white-space: pre }
table.write :is(th, td) { border: 1px solid; padding: .3rem }
table.write td { height: 11mm }
tfoot td { border-bottom: 0; font-weight: bold }
tr, figure { break-inside: avoid }
figure { margin: 1.2rem 0 }
figure svg { display: block; max-height: 9cm; width: 100% }
section.step { border-top: 3px solid; break-inside: avoid; display: grid; font-size: 14pt; gap: 0 1rem; grid-template-columns: 3rem 1fr; margin-top: 1.4rem; padding-top: .5rem }
section.step > strong { font-size: 2em; line-height: 1 }
section.step h3 { font-size: 1.1em; margin: 0 }
section.step dl { grid-template-columns: minmax(6rem, 22%) 1fr }
section.step p.blanks { display: flex; gap: 1rem; margin: 1rem 0 .2rem }
section.step p.blanks span { border-bottom: 1px solid; flex: 1 }
figure.square { align-items: center; display: flex; gap: 1rem }
figure.square figcaption { overflow-wrap: anywhere; white-space: pre-line }
section.step dt { font-weight: bold }
figure.square svg { flex: none; height: 30mm; width: 30mm }
p.blank { align-items: end; display: flex; gap: .6rem; margin-top: 1.4rem }
p.blank span { border-bottom: 1px solid; flex: 1 }
@media print { body { margin: 0; max-width: none; padding: 0 } }
`;

const SIZES: Readonly<Record<PaperSize, string>> = { A4: 'A4', letter: 'letter' };
const STYLES: Readonly<Record<PaperSize, string>> = { A4: styleFor('A4'), letter: styleFor('letter') };

function styleFor(size: PaperSize): string {
  return `@page { size: ${SIZES[size]} }${STYLE}`;
}

/** Lets the page use its own style and nothing else: no script, no picture, no address of anybody. */
export const PAPER_CSP = [
  "default-src 'none'",
  `style-src ${Object.values(STYLES)
    .map((style) => `'sha256-${createHash('sha256').update(style).digest('base64')}'`)
    .join(' ')}`,
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** A paper as one HTML page to read, print or save. */
export function htmlPaper({ language, title, author, size, blocks }: Paper): string {
  return `<!doctype html>
<html lang="${escapeMarkup(language)}">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta name="author" content="${escapeMarkup(author)}">
<meta name="robots" content="noindex, nofollow">
<title>${escapeMarkup(title)}</title>
<style>${STYLES[size]}</style>
<main>
${blocks.map(blockHtml).join('\n')}
</main>
</html>
`;
}

function blockHtml(block: Block): string {
  switch (block.kind) {
    case 'letterhead':
      return `<header><strong>${escapeMarkup(block.name)}</strong>${lines(block.lines)}</header>`;
    case 'address':
      return `<address>${lines(block.lines)}</address>`;
    case 'title':
      return `<h1>${escapeMarkup(block.text)}</h1>`;
    case 'heading':
      return `<h2>${escapeMarkup(block.text)}</h2>`;
    case 'paragraph':
      return `<p>${escapeMarkup(block.text)}</p>`;
    case 'notice':
      return `<p class="notice">${escapeMarkup(block.text)}</p>`;
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${escapeMarkup(item)}</li>`).join('')}</ul>`;
    case 'checks':
      return `<ul class="checks">${block.items.map((item) => `<li>${escapeMarkup(item)}</li>`).join('')}</ul>`;
    case 'facts':
      return `<dl>${block.rows.map(factHtml).join('')}</dl>`;
    case 'table':
      return tableHtml(block);
    case 'blanks':
      return block.labels.map((label) => `<p class="blank">${escapeMarkup(label)}: <span></span></p>`).join('\n');
    case 'step':
      return stepHtml(block);
    case 'square':
      return `<figure class="square">${block.svg}<figcaption>${escapeMarkup(block.caption)}</figcaption></figure>`;
    case 'drawing':
      return `<figure>${block.svg}<figcaption>${escapeMarkup(block.caption)}</figcaption></figure>`;
  }
}

function stepHtml({ mark, title, rows, blanks }: Extract<Block, { kind: 'step' }>): string {
  const toWrite = blanks.map((label) => `${escapeMarkup(label)} <span></span>`).join(' ');
  return `<section class="step"><strong>${escapeMarkup(mark)}</strong><div><h3>${escapeMarkup(title)}</h3>
<dl>${rows.map(factHtml).join('')}</dl>${blanks.length > 0 ? `<p class="blanks">${toWrite}</p>` : ''}</div></section>`;
}

function lines(texts: readonly string[]): string {
  return texts.map(escapeMarkup).join('<br>');
}

function factHtml({ label, value, strong }: Fact): string {
  const weight = strong ? ' class="strong"' : '';
  return `<dt${weight}>${escapeMarkup(label)}</dt><dd${weight}>${escapeMarkup(value)}</dd>`;
}

function tableHtml({ head, rows, total, amounts, toWriteIn = false }: Extract<Block, { kind: 'table' }>): string {
  const styled = amounts ? ' class="amounts"' : toWriteIn ? ' class="write"' : '';
  return `<table${styled}>
<thead><tr>${head.map((cell) => `<th scope="col">${escapeMarkup(cell)}</th>`).join('')}</tr></thead>
<tbody>${rows.map(rowHtml).join('')}</tbody>${total ? `\n<tfoot>${rowHtml(total)}</tfoot>` : ''}
</table>`;
}

function rowHtml(cells: readonly string[]): string {
  return `<tr>${cells.map((cell) => `<td>${escapeMarkup(cell)}</td>`).join('')}</tr>`;
}
