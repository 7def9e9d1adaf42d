/** What stands in a drawing, read back from its SVG. */

export interface DrawnSvg {
  width: number;
  height: number;
  circles: { cx: number; cy: number; r: number; filled: boolean }[];
  /** Corners of closed outlines. */
  outlines: { x: number; y: number }[][];
  /** All points of lines, open ones and leaders among them. */
  points: { x: number; y: number }[];
  texts: string[];
  /** Units of the page for a millimetre, by its own bar. */
  unitsPerMm: number;
}

export function readSvg(svg: string): DrawnSvg {
  const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.map(Number) as [number, number, number];
  const tags = [...svg.matchAll(/<(\w+)([^>]*)>/g)].map(([, name, text]) => ({
    name,
    attributes: Object.fromEntries([...text!.matchAll(/([\w-]+)="([^"]*)"/g)].map(([, key, value]) => [key!, value!])),
  }));
  const named = (name: string) => tags.filter((tag) => tag.name === name).map(({ attributes }) => attributes);
  const outlines = named('polygon').map(({ points }) => listed(points!));
  const texts = [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text!);
  const bar = named('path').map(({ d }) => /^M([\d.]+) [\d.]+v10M[\d.]+ [\d.]+H([\d.]+)M/.exec(d!)!)[0]!;
  const barMm = Number(/^([\d.]+) mm$/.exec(texts.at(-1)!)![1]);
  return {
    width,
    height,
    circles: named('circle').map(({ cx, cy, r, fill }) => ({
      cx: Number(cx),
      cy: Number(cy),
      r: Number(r),
      filled: fill === '#000',
    })),
    outlines,
    points: [
      ...outlines.flat(),
      ...named('polyline').flatMap(({ points }) => listed(points!)),
      ...named('line').flatMap(({ x1, y1, x2, y2 }) => [pointOf([x1!, y1!]), pointOf([x2!, y2!])]),
      ...named('text').map(({ x, y }) => pointOf([x!, y!])),
    ],
    texts,
    unitsPerMm: (Number(bar[2]) - Number(bar[1])) / barMm,
  };
}

function listed(points: string): { x: number; y: number }[] {
  return points.split(' ').map((pair) => pointOf(pair.split(',')));
}

function pointOf([x, y]: readonly string[]): { x: number; y: number } {
  return { x: Number(x), y: Number(y) };
}
