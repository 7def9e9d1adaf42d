/** Pieces of a kind and size for the heat model, with its own dimensions for every part. */

import type { Design, Joint, Part } from '../../shared/design/design.ts';

export const HEATED_KINDS = ['wires', 'posts'] as const;
export type HeatedKind = (typeof HEATED_KINDS)[number];

const wire = (i: number, lengthMm: number): Part => ({
  id: `wire-${String(i).padStart(2, '0')}`,
  metal: 'sterling-925',
  form: { kind: 'round_wire', lengthMm, diameterMm: 2 },
});

const barMm = (i: number): number => 14 + 2 * (i % 4);

/** `wires`: bars end to end, of four lengths. `posts`: unlike posts in a row on one plate. */
export function heatedPiece(kind: HeatedKind, count: number): Design {
  if (kind === 'wires') {
    return {
      parts: Array.from({ length: count + 1 }, (_, i) => wire(i, barMm(i))),
      joints: Array.from({ length: count }, (_, i): Joint => {
        const ends = [
          { part: wire(i, 1).id, alongMm: barMm(i) },
          { part: wire(i + 1, 1).id, alongMm: 0 },
        ] as const;
        return { id: `joint-${String(i).padStart(2, '0')}`, kind: 'post', diameterMm: 2, gapMm: 0.05, between: ends };
      }),
    };
  }
  return {
    parts: [
      { id: 'plate', metal: 'sterling-925', form: { kind: 'sheet', lengthMm: 10 + 6 * count, widthMm: 8, thicknessMm: 0.8 } },
      ...Array.from({ length: count }, (_, i) => wire(i, 5 + (i % 3))),
    ],
    joints: Array.from({ length: count }, (_, i): Joint => {
      const ends = [
        { part: 'plate', xMm: 5 + 6 * i, yMm: 4 },
        { part: wire(i, 1).id, alongMm: 0 },
      ] as const;
      return { id: `joint-${String(i).padStart(2, '0')}`, kind: 'post', diameterMm: 2, gapMm: 0.05, between: ends };
    }),
  };
}
