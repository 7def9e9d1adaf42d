/** A text beside the drawing that points at a spot in it; y downward, in units of the page. */
export interface Callout {
  at: { x: number; y: number };
  lines: readonly string[];
  /** In a circle before the text. */
  number?: number;
  /** The column it goes to: −1 on the left of the drawing, 1 on the right. */
  way: -1 | 1;
}

export interface Column {
  callouts: SetCallout[];
  bottom: number;
}

export const LINE = 15;
const GAP = 10;

/** A callout with the height of its middle. */
export interface SetCallout extends Callout {
  y: number;
}

/**
 * Sets callouts under each other in one column, each as near to the height of its spot as the others let it; in the order of
 * their spots, so that few leaders cross.
 *
 * @param top least y of the column
 * @param height wished for; more is taken where the texts need more
 */
export function setInColumn(callouts: readonly Callout[], { top, height }: { top: number; height: number }): Column {
  const sorted = callouts.toSorted((a, b) => a.at.y - b.at.y || a.at.x - b.at.x);
  const room = (one: Callout) => Math.max(one.number === undefined ? 1 : 1.6, one.lines.length) * LINE + GAP;
  const bottom = Math.max(top + height, top + sorted.reduce((sum, one) => sum + room(one), 0));
  const tops: number[] = [];
  let from = top;
  for (const one of sorted) {
    tops.push(Math.max(from, one.at.y - room(one) / 2));
    from = tops.at(-1)! + room(one);
  }
  let to = bottom;
  for (let index = sorted.length - 1; index >= 0; index--) {
    tops[index] = Math.min(tops[index]!, to - room(sorted[index]!));
    to = tops[index]!;
  }
  return { callouts: sorted.map((one, index) => ({ ...one, y: tops[index]! + room(one) / 2 })), bottom };
}
