/** Four pieces to begin a design from, invented for the studio Quillwharf Bench: as they are drawn, with the solders they are priced with. */

import type { Design } from './design.ts';

const sterling = 'sterling-925';
const fine = 'fine-silver-999';

/** Pendant with a bezel and a bail. */
export const pendant: Design = {
  parts: [
    { id: 'plate', name: 'backplate', metal: sterling, form: { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 } },
    { id: 'wall', name: 'bezel', metal: fine, form: { kind: 'band', insideDiameterMm: 10, heightMm: 3, thicknessMm: 0.35 } },
    { id: 'bail', metal: sterling, form: { kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1.2 } },
  ],
  joints: [
    { id: 'wall-seam', kind: 'seam', closes: 'wall', lengthMm: 3, thicknessMm: 0.35, gapMm: 0.05, solder: 'hard-sheet' },
    {
      id: 'bezel',
      kind: 'loop_base',
      between: [
        { part: 'plate', xMm: 15, yMm: 8 },
        { part: 'wall', acrossMm: 0 },
      ],
      gapMm: 0.05,
      filletInsideMm: 0.2,
      filletOutsideMm: 0,
      solder: 'medium-sheet',
      pieces: 8,
    },
    { id: 'bail-seam', kind: 'jump_ring', closes: 'bail', diameterMm: 1.2, gapMm: 0.05, solder: 'hard-sheet' },
    {
      id: 'bail-on',
      kind: 'tee',
      between: [
        { part: 'plate', xMm: 15, yMm: 20 },
        { part: 'bail', alongMm: 8 },
      ],
      lengthMm: 1.2,
      thicknessMm: 1.2,
      gapMm: 0.05,
      load: 'none',
      solder: 'easy-sheet',
    },
  ],
  rules: { before: [['wall-seam', 'bezel']], maxJointsPerHeat: 3, maxSpreadMm: 80, leastSilverFraction: 0.65 },
};

/** Finger ring: a band, a bezel cup on it, a grain on either side. */
export const grainRing: Design = {
  parts: [
    {
      id: 'band',
      name: 'shank',
      metal: sterling,
      form: { kind: 'band', insideDiameterMm: 18, heightMm: 4, thicknessMm: 1.5 },
      supportContactFraction: 0.02,
    },
    {
      id: 'cup',
      name: 'cup floor',
      metal: sterling,
      form: { kind: 'disc', diameterMm: 8, thicknessMm: 0.6 },
      supportContactFraction: 0,
    },
    {
      id: 'wall',
      name: 'bezel',
      metal: fine,
      form: { kind: 'band', insideDiameterMm: 7.65, heightMm: 3, thicknessMm: 0.35 },
      supportContactFraction: 0,
    },
    { id: 'left-grain', metal: sterling, form: { kind: 'ball', diameterMm: 2.2 }, supportContactFraction: 0 },
    { id: 'right-grain', metal: sterling, form: { kind: 'ball', diameterMm: 2.2 }, supportContactFraction: 0 },
  ],
  joints: [
    { id: 'band-seam', kind: 'seam', closes: 'band', lengthMm: 4, thicknessMm: 1.5, gapMm: 0.05, solder: 'hard-sheet' },
    { id: 'wall-seam', kind: 'seam', closes: 'wall', lengthMm: 3, thicknessMm: 0.35, gapMm: 0.05, solder: 'hard-sheet' },
    {
      id: 'cup-base',
      kind: 'loop_base',
      between: [
        { part: 'cup', xMm: 0, yMm: 0 },
        { part: 'wall', acrossMm: 0 },
      ],
      gapMm: 0.05,
      solder: 'hard-sheet',
      pieces: 6,
    },
    {
      id: 'seat',
      kind: 'tee',
      between: [
        { part: 'band', alongMm: 30.631, acrossMm: 2 },
        { part: 'cup', xMm: 0, yMm: 0 },
      ],
      lengthMm: 5,
      thicknessMm: 4,
      gapMm: 0.05,
      solder: 'medium-sheet',
      pieces: 4,
    },
    {
      id: 'left-grain-on',
      kind: 'granule',
      between: [{ part: 'band', alongMm: 23.631, acrossMm: 2 }, { part: 'left-grain' }],
      diameterMm: 2.2,
      neckRadiusMm: 0.56,
      gapMm: 0.05,
      solder: 'easy-sheet',
    },
    {
      id: 'right-grain-on',
      kind: 'granule',
      between: [{ part: 'band', alongMm: 37.631, acrossMm: 2 }, { part: 'right-grain' }],
      diameterMm: 2.2,
      neckRadiusMm: 0.56,
      gapMm: 0.05,
      solder: 'easy-sheet',
    },
  ],
  rules: {
    before: [
      ['wall-seam', 'cup-base'],
      ['band-seam', 'seat'],
    ],
    maxJointsPerHeat: 3,
    leastSilverFraction: 0.55,
  },
};

/** One of a pair of earrings: a disc with a post behind and a loop at its edge. */
export const earring: Design = {
  parts: [
    { id: 'disc', metal: sterling, form: { kind: 'disc', diameterMm: 12, thicknessMm: 0.8 } },
    { id: 'loop', metal: sterling, form: { kind: 'wire_ring', insideDiameterMm: 2.4, diameterMm: 0.8 } },
    { id: 'post', metal: sterling, form: { kind: 'round_wire', diameterMm: 0.8, lengthMm: 11 }, supportContactFraction: 0 },
  ],
  joints: [
    { id: 'loop-seam', kind: 'jump_ring', closes: 'loop', diameterMm: 0.8, gapMm: 0.05, solder: 'hard-sheet' },
    {
      id: 'loop-on',
      kind: 'tee',
      between: [
        { part: 'disc', xMm: 0, yMm: 5.3 },
        { part: 'loop', alongMm: 5 },
      ],
      lengthMm: 1,
      thicknessMm: 1,
      gapMm: 0.05,
      solder: 'medium-sheet',
    },
    {
      id: 'post-on',
      kind: 'post',
      between: [
        { part: 'disc', xMm: 0, yMm: 0 },
        { part: 'post', alongMm: 0 },
      ],
      diameterMm: 0.8,
      filletMm: 0.1,
      gapMm: 0.05,
      solder: 'easy-sheet',
    },
  ],
  rules: { before: [['loop-seam', 'loop-on']], maxJointsPerHeat: 2 },
};

/** Lid of a small round box: a top, a rim that fits the box, a knob. */
export const boxLid: Design = {
  parts: [
    { id: 'top', metal: sterling, form: { kind: 'disc', diameterMm: 33, thicknessMm: 0.8 } },
    {
      id: 'rim',
      metal: sterling,
      form: { kind: 'band', insideDiameterMm: 28.2, heightMm: 4, thicknessMm: 0.8 },
      supportContactFraction: 0,
    },
    { id: 'knob', metal: sterling, form: { kind: 'ball', diameterMm: 5 }, supportContactFraction: 0 },
  ],
  joints: [
    { id: 'rim-seam', kind: 'seam', closes: 'rim', lengthMm: 4, thicknessMm: 0.8, gapMm: 0.05, solder: 'hard-sheet' },
    {
      id: 'rim-on',
      kind: 'loop_base',
      between: [
        { part: 'top', xMm: 0, yMm: 0 },
        { part: 'rim', acrossMm: 0 },
      ],
      gapMm: 0.05,
      filletInsideMm: 0.2,
      filletOutsideMm: 0.2,
      solder: 'medium-sheet',
      pieces: 12,
    },
    {
      id: 'knob-on',
      kind: 'granule',
      between: [{ part: 'top', xMm: 0, yMm: 0 }, { part: 'knob' }],
      diameterMm: 5,
      neckRadiusMm: 0.98,
      gapMm: 0.05,
      load: 'own_weight',
      solder: 'easy-sheet',
    },
  ],
  rules: { before: [['rim-seam', 'rim-on']], maxJointsPerHeat: 2 },
};
