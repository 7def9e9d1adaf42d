import { createHash } from 'node:crypto';
import { escapeMarkup } from '../../../shared/drawing/svg-text.ts';
import type { Label } from './label.ts';
import { labelSvg } from './label-svg.ts';
import type { LabelRun } from './label-run.ts';
import { pagesOf } from './label-run.ts';

/** Labels as one page to look at and print, each on paper of its size or on the sheet, and the policy that lets it use its own style. */
export function labelPage({ title, language, run }: { title: string; language: string; run: LabelRun }): {
  html: string;
  policy: string;
} {
  const style = styleFor(run);
  const drawn = new Map<Label, string>();
  const svg = (label: Label) => {
    const known = drawn.get(label) ?? labelSvg(label, run.size);
    drawn.set(label, known);
    return known;
  };
  const pages = pagesOf(run).map(
    (page) => `<section>${page.map((label) => (label ? svg(label) : '<span></span>')).join('\n')}</section>`,
  );
  return {
    html: `<!doctype html>
<html lang="${escapeMarkup(language)}">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta name="robots" content="noindex, nofollow">
<title>${escapeMarkup(title)}</title>
<style>${style}</style>
<main>
${pages.join('\n')}
</main>
</html>
`,
    policy: [
      "default-src 'none'",
      `style-src 'sha256-${createHash('sha256').update(style).digest('base64')}'`,
      "base-uri 'none'",
      "form-action 'none'",
      "frame-ancestors 'none'",
    ].join('; '),
  };
}

function styleFor({ size, sheet }: LabelRun): string {
  const page = sheet
    ? `width: ${sheet.widthMm}mm; height: ${sheet.heightMm}mm; padding: ${sheet.topMm}mm ${sheet.leftMm}mm 0; column-gap: ${sheet.columnGapMm}mm; grid-template-columns: repeat(${sheet.columns}, ${size.widthMm}mm); grid-auto-rows: ${size.heightMm}mm;`
    : `width: ${size.widthMm}mm; height: ${size.heightMm}mm;`;
  const paper = sheet ?? size;
  return `
@page { size: ${paper.widthMm}mm ${paper.heightMm}mm; margin: 0 }
* { box-sizing: border-box }
body { background: #fff; color: #000; margin: 0 }
section { display: grid; ${page} align-content: start; break-after: page; break-inside: avoid; overflow: hidden }
section:last-child { break-after: auto }
svg { display: block }
@media screen { section { margin: 4mm } svg { outline: .3mm dashed #000 } }
`;
}
