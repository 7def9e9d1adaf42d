import { create } from 'qrcode';
import { element } from '../../../shared/drawing/svg-text.ts';

/** Light modules round a square, on every side (ISO/IEC 18004:2015, 6.3.8). */
const QUIET_MODULES = 4;

function modulesOf(text: string) {
  return create(text, { errorCorrectionLevel: 'M' }).modules;
}

/** How many modules a text takes along a side of its square, the quiet zone among them. */
export function squareModules(text: string): number {
  return modulesOf(text).size + 2 * QUIET_MODULES;
}

/** Dark modules of a text as a square, in one path; in one row those that touch are one rectangle, so that no hairline shows between them. */
export function squarePath(text: string, { side, x, y }: { side: number; x: number; y: number }): string {
  const modules = modulesOf(text);
  const scale = side / (modules.size + 2 * QUIET_MODULES);
  const runs: string[] = [];
  for (let row = 0; row < modules.size; row++) {
    for (let column = 0; column < modules.size; column++) {
      if (!modules.get(row, column)) continue;
      const from = column;
      while (column + 1 < modules.size && modules.get(row, column + 1)) column++;
      runs.push(`M${from} ${row}h${column - from + 1}v1h${from - column - 1}z`);
    }
  }
  return element('path', {
    d: runs.join(''),
    transform: `translate(${x + QUIET_MODULES * scale} ${y + QUIET_MODULES * scale}) scale(${scale})`,
    'shape-rendering': 'crispEdges',
  });
}

/** A text as a square to scan, with its quiet zone, as an SVG of its own. */
export function qrPicture(text: string): string {
  const side = 100;
  return element(
    'svg',
    { xmlns: 'http://www.w3.org/2000/svg', viewBox: `0 0 ${side} ${side}`, role: 'img', 'aria-label': text },
    squarePath(text, { side, x: 0, y: 0 }),
  );
}
