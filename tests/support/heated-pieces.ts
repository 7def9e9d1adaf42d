import type { Design } from '../../shared/design/design.ts';
import type { HeatQuestion } from '../../shared/thermal/heat-run.ts';
import { pendant } from './pendant.ts';

/** Melting points used where a test needs some; near BAg-10, BAg-9 and BAg-7. */
export const SOLDERS = [
  { id: 'hard', solidusC: 740, liquidusC: 788 },
  { id: 'medium', solidusC: 691, liquidusC: 738 },
  { id: 'easy', solidusC: 671, liquidusC: 718 },
];

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
    design: pendant,
    bench: { torch: 'medium', support: 'brick' },
    targets: ['bail-on'],
    made: ['wall-seam', 'bezel', 'bail-seam'],
    solders: SOLDERS.slice(2),
    ...more,
  };
}
