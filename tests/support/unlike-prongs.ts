import type { PlanSearchRequest } from '../../shared/sequencing/plan-search-request.ts';

const thickMm = (i: number): number => 0.8 + i / 20;

/** Prongs on one disc, each a little thicker than the one before, one a heat: with many of them a search takes long. */
export function unlikeProngs(count: number): PlanSearchRequest {
  const ids = Array.from({ length: count }, (_, i) => i);
  return {
    design: {
      parts: [
        { id: 'disc', metal: 'sterling-925', form: { kind: 'disc', diameterMm: 20, thicknessMm: 1 } },
        ...ids.map((i) => ({
          id: `p${i}`,
          metal: 'sterling-925',
          form: { kind: 'round_wire' as const, diameterMm: thickMm(i), lengthMm: 6 },
        })),
      ],
      joints: ids.map((i) => ({
        id: `j${i}`,
        kind: 'post' as const,
        between: [
          { part: 'disc', xMm: 7 * Math.cos(i), yMm: 7 * Math.sin(i) },
          { part: `p${i}`, alongMm: 0 },
        ] as const,
        diameterMm: thickMm(i),
        gapMm: 0.05,
      })),
      rules: { maxJointsPerHeat: 1 },
    },
    solders: [
      { id: 'hard', solidusC: 740, liquidusC: 788 },
      { id: 'easy', solidusC: 671, liquidusC: 718 },
    ],
    bench: { torch: 'medium', support: 'brick' },
    options: { protections: [{ kind: 'shield' }, { kind: 'flame_away' }] },
  };
}

/** A search that has found a plan in a second or so, and goes on for a quarter of a minute and more to prove how good it is. */
export function slowSearch(): PlanSearchRequest {
  const { design, ...request } = unlikeProngs(14);
  return {
    ...request,
    design: { ...design, rules: { maxJointsPerHeat: 7 } },
    options: { policy: 'do_not_run', workUnits: 100_000_000 },
  };
}
