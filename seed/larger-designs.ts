/** Four more pieces of Quillwharf Bench, invented like the others: what is long, loose, sprung or heavy. */

import type { Design, Joint, Part } from '../shared/design/design.ts';

const sterling = 'sterling-925';

const half = (id: string): Part => ({
  id,
  metal: sterling,
  form: { kind: 'half_round_wire', lengthMm: 95, widthMm: 6, heightMm: 2.5 },
});
const knuckle = (id: string): Part => ({
  id,
  metal: sterling,
  form: { kind: 'tube', lengthMm: 2.6, outsideDiameterMm: 3, insideDiameterMm: 1.6 },
});
const onEnd = (id: string, part: string, fitting: string, alongMm: number): Joint => ({
  id,
  kind: 'tee',
  between: [
    { part, alongMm },
    { part: fitting, alongMm: 1.3 },
  ],
  lengthMm: 2.6,
  thicknessMm: 1.5,
  gapMm: 0.05,
  filletMm: 0.1,
});

/** Bangle in two halves: three knuckles at one end, tongue and box at the other. */
export const bangle: Design = {
  parts: [
    half('left'),
    half('right'),
    knuckle('outer-knuckle'),
    knuckle('middle-knuckle'),
    knuckle('inner-knuckle'),
    { id: 'tongue', metal: sterling, form: { kind: 'sheet', lengthMm: 9, widthMm: 4, thicknessMm: 0.8 } },
    { id: 'box', metal: sterling, form: { kind: 'tube', lengthMm: 6, outsideDiameterMm: 5, insideDiameterMm: 3.6 } },
  ],
  joints: [
    onEnd('outer-on', 'left', 'outer-knuckle', 1),
    onEnd('inner-on', 'left', 'inner-knuckle', 3.7),
    onEnd('middle-on', 'right', 'middle-knuckle', 1),
    {
      id: 'tongue-on',
      kind: 'lap',
      between: [
        { part: 'left', alongMm: 93 },
        { part: 'tongue', xMm: 2, yMm: 2 },
      ],
      widthMm: 4,
      overlapMm: 4,
      gapMm: 0.05,
      load: 'sprung',
    },
    onEnd('box-on', 'right', 'box', 93),
  ],
  rules: { maxJointsPerHeat: 2 },
};

/** Brooch: a pierced plate with a bezel, and hinge and catch of the pin behind. */
export const brooch: Design = {
  parts: [
    { id: 'plate', metal: sterling, form: { kind: 'outline', areaMm2: 900, thicknessMm: 1 } },
    {
      id: 'wall',
      name: 'bezel',
      metal: 'fine-silver-999',
      form: { kind: 'band', insideDiameterMm: 14, heightMm: 4, thicknessMm: 0.4 },
    },
    { id: 'hinge', metal: sterling, form: { kind: 'bar', lengthMm: 5, widthMm: 3, thicknessMm: 2 } },
    { id: 'catch', metal: sterling, form: { kind: 'round_wire', lengthMm: 9, diameterMm: 1.2 } },
  ],
  joints: [
    { id: 'wall-seam', kind: 'seam', closes: 'wall', lengthMm: 4, thicknessMm: 0.4, gapMm: 0.05 },
    {
      id: 'bezel',
      kind: 'loop_base',
      between: [
        { part: 'plate', xMm: 0, yMm: 0 },
        { part: 'wall', acrossMm: 0 },
      ],
      gapMm: 0.05,
      filletInsideMm: 0.2,
      pieces: 12,
    },
    {
      id: 'hinge-on',
      kind: 'tee',
      between: [
        { part: 'plate', xMm: -12, yMm: 0 },
        { part: 'hinge', alongMm: 2.5 },
      ],
      lengthMm: 5,
      thicknessMm: 3,
      gapMm: 0.05,
      load: 'own_weight',
    },
    {
      id: 'catch-on',
      kind: 'post',
      between: [
        { part: 'plate', xMm: 12, yMm: 0 },
        { part: 'catch', alongMm: 0 },
      ],
      diameterMm: 1.2,
      gapMm: 0.05,
      filletMm: 0.15,
    },
  ],
  rules: { before: [['wall-seam', 'bezel']], maxJointsPerHeat: 2 },
};

/** Beaker on a foot: about 70 g, so it asks for the largest torch and patience. */
export const beaker: Design = {
  parts: [
    { id: 'wall', metal: sterling, form: { kind: 'band', insideDiameterMm: 45, heightMm: 50, thicknessMm: 0.7 } },
    { id: 'base', metal: sterling, form: { kind: 'disc', diameterMm: 47, thicknessMm: 0.8 } },
    {
      id: 'foot',
      metal: sterling,
      form: { kind: 'band', insideDiameterMm: 30, heightMm: 5, thicknessMm: 1 },
      supportContactFraction: 0,
    },
  ],
  joints: [
    { id: 'wall-seam', kind: 'seam', closes: 'wall', lengthMm: 50, thicknessMm: 0.7, gapMm: 0.05, pieces: 12 },
    { id: 'foot-seam', kind: 'seam', closes: 'foot', lengthMm: 5, thicknessMm: 1, gapMm: 0.05 },
    {
      id: 'base-on',
      kind: 'loop_base',
      between: [
        { part: 'base', xMm: 0, yMm: 0 },
        { part: 'wall', acrossMm: 0 },
      ],
      gapMm: 0.05,
      filletInsideMm: 0.3,
      pieces: 24,
    },
    {
      id: 'foot-on',
      kind: 'loop_base',
      between: [
        { part: 'base', xMm: 0, yMm: 0 },
        { part: 'foot', acrossMm: 0 },
      ],
      gapMm: 0.05,
      filletOutsideMm: 0.3,
      pieces: 16,
    },
  ],
  rules: {
    before: [
      ['wall-seam', 'base-on'],
      ['foot-seam', 'foot-on'],
    ],
    maxJointsPerHeat: 2,
  },
};

const LINK_NAMES = ['first', 'second', 'third', 'fourth', 'fifth'];
/** Round the mean circle, 7.2 mm across, in quarters from the gap. */
const LINK_QUARTER_MM = (Math.PI * 7.2) / 4;

/** Five links of a chain, hung together and then closed one by one: each is heated with its neighbours on it. */
export const links: Design = {
  parts: LINK_NAMES.map((id) => ({
    id,
    metal: sterling,
    form: { kind: 'wire_ring', insideDiameterMm: 6, diameterMm: 1.2 },
  })),
  joints: LINK_NAMES.map((closes) => ({ id: `${closes}-closed`, kind: 'jump_ring', closes, gapMm: 0.05 })),
  contacts: LINK_NAMES.slice(1).map((next, i) => ({
    kind: 'loose',
    between: [
      { part: LINK_NAMES[i]!, alongMm: 3 * LINK_QUARTER_MM },
      { part: next, alongMm: LINK_QUARTER_MM },
    ],
  })),
  rules: { maxJointsPerHeat: 1 },
};
