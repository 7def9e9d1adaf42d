/** A pendant: a plate, a bezel that closes on itself, a bail ring. The design, solders and plan that the API's page shows. */

import type { Design } from '../../shared/design/design.ts';
import type { Bench, Plan } from '../../shared/design/plan.ts';
import type { Solder } from '../../shared/design/solder.ts';

export const pendant: Design = {
  parts: [
    { id: 'plate', metal: 'sterling-925', form: { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 } },
    { id: 'wall', metal: 'fine-silver-999', form: { kind: 'band', insideDiameterMm: 10, heightMm: 3, thicknessMm: 0.35 } },
    { id: 'bail', metal: 'sterling-925', form: { kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1.2 } },
  ],
  joints: [
    { id: 'wall-seam', kind: 'seam', closes: 'wall', lengthMm: 3, thicknessMm: 0.35, gapMm: 0.05 },
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
    },
    { id: 'bail-seam', kind: 'jump_ring', closes: 'bail', diameterMm: 1.2, gapMm: 0.05 },
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
    },
  ],
  rules: {
    before: [['wall-seam', 'bezel']],
    maxJointsPerHeat: 3,
    maxSpreadMm: 80,
    leastSilverFraction: 0.65,
    grades: { 'bail-on': { exclude: ['hard'] } },
  },
};

export const solders: Solder[] = [
  { id: 'hard', solidusC: 740, liquidusC: 788, silverFraction: 0.75, availableG: 5 },
  { id: 'medium', solidusC: 691, liquidusC: 738 },
  { id: 'easy', solidusC: 671, liquidusC: 718 },
];

export const bench: Bench = { torch: 'medium', support: 'brick', riseK: 0, calibration: null };

export const pendantPlan: Plan = {
  heats: [
    { joints: ['wall-seam'], solder: 'hard' },
    { joints: ['bail-seam'], solder: 'hard' },
    { joints: ['bezel'], solder: 'medium' },
    {
      joints: ['bail-on'],
      solder: 'easy',
      flame: { tiltDeg: 45, awayFrom: 'bezel' },
      protections: [
        { kind: 'sink', sink: 'tweezers', at: { joint: 'bezel' } },
        { kind: 'anti_flow', guards: 'bezel' },
        { kind: 'shield', guards: 'wall' },
      ],
    },
  ],
};
