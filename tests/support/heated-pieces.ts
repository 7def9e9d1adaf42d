import type { Design } from '../../shared/design/design.ts';
import type { HeatQuestion } from '../../shared/thermal/heat-run.ts';

/** Melting points used where a test needs some; near BAg-10, BAg-9 and BAg-7. */
export const SOLDERS = [
  { id: 'hard', solidusC: 740, liquidusC: 788 },
  { id: 'medium', solidusC: 691, liquidusC: 738 },
  { id: 'easy', solidusC: 671, liquidusC: 718 },
];

/** A plate with a bezel and a bail at its edge. */
export const PENDANT: Design = {
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
    },
  ],
};

/** A wire with a grain in its middle and others along it; at: name and place of each. */
export function grainedWire(at: Readonly<Record<string, number>>): Design {
  const grains = Object.entries(at);
  return {
    parts: [
      { id: 'wire', metal: 'sterling-925', form: { kind: 'round_wire', lengthMm: 100, diameterMm: 2 } },
      ...grains.map(([id]) => ({ id, metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2.2 } as const })),
    ],
    joints: grains.map(([id, alongMm]) => ({
      id,
      kind: 'granule',
      between: [{ part: 'wire', alongMm }, { part: id }],
      diameterMm: 2.2,
      neckRadiusMm: 0.6,
      gapMm: 0.05,
    })),
  };
}

/** The last heat of the pendant, its bail with easy solder. */
export function bailHeat(more: Partial<HeatQuestion> = {}): HeatQuestion {
  return {
    design: PENDANT,
    bench: { torch: 'medium', support: 'brick' },
    targets: ['bail-on'],
    made: ['wall-seam', 'bezel', 'bail-seam'],
    solders: SOLDERS.slice(2),
    ...more,
  };
}
