/** The pendant of the demo as it is drawn, with solders, a bench and a plan for it. */

import { pendant as demoPendant } from '../../seed/designs.ts';
import type { Design } from '../../shared/design/design.ts';
import type { Bench, Plan } from '../../shared/design/plan.ts';
import type { Solder } from '../../shared/design/solder.ts';

/** Which solder a joint takes, and in how many chips, is yet to be said. */
export const pendant: Design = {
  ...demoPendant,
  joints: demoPendant.joints.map(({ solder: _solder, pieces: _pieces, ...joint }) => joint),
  rules: { ...demoPendant.rules, grades: { 'bail-on': { exclude: ['hard'] } } },
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
