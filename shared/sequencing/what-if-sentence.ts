import type { ChangedHeat } from './changed-heats.ts';
import type { WhatIf } from './what-if-answer.ts';

/** The worst first, as a joint is judged. */
const WORST_FIRST = ['runs', 'may_run', 'softens', 'held', 'may_soften', 'stays_solid'] as const;
const IN_WORDS: Readonly<Record<(typeof WORST_FIRST)[number], string>> = {
  runs: 'runs',
  may_run: 'may run',
  softens: 'softens',
  held: 'softens, held by anti-flow',
  may_soften: 'may soften',
  stays_solid: 'stays solid',
};

/** What edits change, in one sentence: problems, the joint whose lot changes most, flame and hands. */
export function whatIfSentence(
  { heats, problems, verdict, flameS, handsOnMinutes }: Omit<WhatIf, 'says'>,
  isSamePlan: boolean,
): string {
  const parts = [
    ...countOf(problems.gone.length, 'gone'),
    ...countOf(problems.new.length, 'new'),
    ...lotOf(heats),
    ...flowOf(heats),
    ...inTime(flameS.before, flameS.after, 's of flame'),
    ...inTime(handsOnMinutes.before, handsOnMinutes.after, 'min of hands'),
    ...(verdict.before === verdict.after ? [] : [`now the plan ${VERDICT_WORDS[verdict.after]}`]),
  ];
  if (parts.length === 0 && isSamePlan) return 'Nothing changes';
  if (parts.length === 0) return heats.length === 0 ? 'Nothing changes but the order' : 'Nothing changes that counts';
  const sentence = parts.join('; ');
  return sentence[0]!.toUpperCase() + sentence.slice(1);
}

const VERDICT_WORDS = {
  clear_to_heat: 'is clear to heat',
  caution: 'has something to mind',
  problem: 'has a problem',
} as const;

const countOf = (count: number, how: string): string[] =>
  count === 0 ? [] : [`${count} ${count === 1 ? 'problem' : 'problems'} ${how}`];

/** Of the joints with another verdict the one that is worst, before or after. */
function lotOf(heats: readonly ChangedHeat[]): string[] {
  const changed = heats
    .flatMap(({ after: heat, earlierJoints }) => earlierJoints.map((joint) => ({ ...joint, heat })))
    .flatMap(({ joint, heat, before, after }) =>
      before && after && before.verdict !== after.verdict ? [{ joint, heat, was: before.verdict, is: after }] : [],
    )
    .toSorted((a, b) => worstOf(a) - worstOf(b));
  return changed.slice(0, 1).map(({ joint, heat, was, is: { verdict, solidMarginK } }) => {
    const by = verdict === 'stays_solid' ? ` by ${Math.round(solidMarginK)} °C` : '';
    return `predicted for ${joint} in heat ${heat}: it ${IN_WORDS[verdict]}${by}; before, it ${IN_WORDS[was]}`;
  });
}

type Verdict = (typeof WORST_FIRST)[number];

const worstOf = ({ was, is }: { was: Verdict; is: { verdict: Verdict } }): number =>
  Math.min(WORST_FIRST.indexOf(was), WORST_FIRST.indexOf(is.verdict));

function flowOf(heats: readonly ChangedHeat[]): string[] {
  return heats.flatMap(({ after, flow }) => {
    if (flow.before === null || flow.after === null || flow.before === flow.after) return [];
    const is = { flows: 'flows', only_just: 'only just flows', does_not_flow: 'does not flow' }[flow.after];
    return [`heat ${after} ${is}`];
  });
}

/** Tenths are noise. */
function inTime(before: number | null, after: number | null, unit: string): string[] {
  if (before === null || after === null) return [];
  const off = Math.round(after - before);
  return off === 0 ? [] : [`${Math.abs(off)} ${unit} ${off > 0 ? 'more' : 'less'}`];
}
