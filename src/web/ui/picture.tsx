import { saveFile } from './save-file.ts';

/** An SVG of the engine on the page: the same text that goes on paper, coloured by the page's own stylesheet. */
export function Picture({ svg, label }: { svg: string; label?: string }) {
  return <div class="picture" aria-label={label} dangerouslySetInnerHTML={{ __html: svg }} />;
}

/** The same as a file of its own. */
export function saveSvg(svg: string, name: string): void {
  saveFile(new Blob([svg], { type: 'image/svg+xml' }), `${name}.svg`);
}
