/** What is done otherwise with what is on the bench, or bought for it: protections, support, torch, solder. */

import type { Bench, Support, TorchPreset } from '../design/plan.ts';
import { SOLDER_GRADES } from '../materials/solder-table.ts';
import { torchOf, TORCHES } from '../thermal/torch.ts';
import type { DesignQuestion } from './design-problem.ts';
import { TORCH_WORDS } from './flow-tries.ts';
import { MEANS_KINDS, type MeansKind } from './heat-oracle.ts';
import { EVERY_PROTECTION, PRICE, type Loosening } from './loosening.ts';
import type { ProtectionOption } from './plan-search-request.ts';

const words = (name: string): string => name.replaceAll('_', ' ');

const IN_WORDS: Readonly<Record<MeansKind, string>> = {
  flame_away: 'the flame tilted away',
  shield: 'a shield',
  sink: 'a sink',
  anti_flow: 'anti-flow',
};

const allowing = (kind: string, price: number, next: readonly ProtectionOption[], says: string): Loosening => ({
  kind,
  price,
  change: { protections: next },
  says,
  loosen: (question) => ({
    ...question,
    protections: [...next, ...question.protections.filter((each) => !next.some((other) => other.kind === each.kind))],
  }),
});

export function protectionsFor({ protections }: DesignQuestion): Loosening[] {
  const missing = MEANS_KINDS.filter((kind) => !protections.some((each) => each.kind === kind));
  const found = missing.map((kind) =>
    allowing(`protection ${kind}`, PRICE.protection, [...protections, { kind }], `Allow ${IN_WORDS[kind]}`),
  );
  if (missing.length > 1) {
    const every = [...protections, ...missing.map((kind) => ({ kind }))];
    found.push(
      allowing(EVERY_PROTECTION, PRICE.allProtections, every, `Allow ${missing.map((kind) => IN_WORDS[kind]).join(', ')}`),
    );
  }
  for (const option of protections) {
    const { kind, maxPerHeat = 1, leastDistanceMm } = option;
    const changed = (more: Partial<ProtectionOption>) =>
      protections.map((each) => (each === option ? { ...each, ...more } : each));
    if (kind !== 'flame_away') {
      const more = allowing(
        `more ${kind}`,
        PRICE.moreProtections,
        changed({ maxPerHeat: maxPerHeat + 1 }),
        `Allow ${maxPerHeat + 1} of the protection ${words(kind)} in one heat`,
      );
      found.push(more);
    }
    if (kind === 'sink' && leastDistanceMm !== 0)
      found.push(
        allowing(
          'nearer sink',
          PRICE.nearerSink,
          changed({ leastDistanceMm: 0 }),
          'Allow a sink as near to what is soldered as it needs',
        ),
      );
  }
  return found;
}

const TAKES_LESS: Readonly<Record<Support, readonly Support[]>> = {
  air: ['brick', 'charcoal'],
  hard_brick: ['brick', 'charcoal'],
  brick: ['charcoal'],
  charcoal: [],
};

const onBench = (
  kind: string,
  price: number,
  change: { support: Support } | { torch: TorchPreset },
  says: string,
): Loosening => ({
  kind,
  price,
  change,
  says,
  // A calibration is of the torch it was made with.
  loosen: (question) => ({
    ...question,
    bench: { ...question.bench, ...change, ...('torch' in change ? { calibration: null } : {}) } satisfies Bench,
  }),
});

export function benchesFor({ bench }: DesignQuestion): Loosening[] {
  const supports = TAKES_LESS[bench.support].map((support) =>
    onBench(
      'support',
      PRICE.support,
      { support },
      `Work on ${support === 'charcoal' ? 'charcoal' : 'soft brick'}, which takes less heat`,
    ),
  );
  const { powerW } = torchOf(bench);
  const torches = (Object.keys(TORCHES) as TorchPreset[]).filter((torch) => torch !== 'hot_point' && torch !== bench.torch);
  const [smaller, larger] = [
    torches.filter((torch) => TORCHES[torch].powerW < powerW).toSorted((a, b) => TORCHES[b].powerW - TORCHES[a].powerW),
    torches.filter((torch) => TORCHES[torch].powerW > powerW).toSorted((a, b) => TORCHES[a].powerW - TORCHES[b].powerW),
  ];
  return [
    ...supports,
    ...[...larger, ...smaller.slice(0, 1)].map((torch) => onBench('torch', PRICE.torch, { torch }, `Take ${TORCH_WORDS[torch]}`)),
  ];
}

/** Of solders whose flow temperatures are this near one is as good as the other. K */
const SAME_SOLDER_K = 8;

export function otherSolders({ solders }: DesignQuestion): Loosening[] {
  return Object.entries(SOLDER_GRADES).flatMap(([id, { solidusC, liquidusC, composition }]): Loosening[] => {
    const isThere = solders.some((each) => each.id === id || Math.abs(each.liquidusC - liquidusC.value) <= SAME_SOLDER_K);
    if (isThere) return [];
    const solder = {
      id,
      solidusC: solidusC.value,
      liquidusC: liquidusC.value,
      silverFraction: (composition.value.Ag ?? 0) / 100,
    };
    return [
      {
        kind: 'solder',
        price: PRICE.otherSolder,
        change: { solder },
        says: `Have a solder like ${words(id).replaceAll('-', ' ')} as well: it begins to melt at ${solder.solidusC} °C and flows at ${solder.liquidusC} °C`,
        loosen: (question) => ({
          ...question,
          solders: [...question.solders, solder],
          solderNeedG: question.solderNeedG && ((joint, asked) => (asked === id ? 0 : question.solderNeedG!(joint, asked))),
        }),
      },
    ];
  });
}
