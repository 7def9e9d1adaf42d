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
  const lot = lotOf(heats);
  const parts = [
    ...countOf(problems.gone.length, { one: '1 problem gone', more: (count) => `${count} problems gone` }),
    ...countOf(problems.new.length, { one: '1 problem new', more: (count) => `${count} problems new` }).map((count) =>
      lot.length > 0 ? count : `${count}: ${whichOf(problems.new)}`,
    ),
    ...lot,
    ...flowOf(heats),
    ...inTime(flameS, { more: (s) => `${s} s of flame more`, less: (s) => `${s} s of flame less` }),
    ...inTime(handsOnMinutes, { more: (min) => `${min} min of hands more`, less: (min) => `${min} min of hands less` }),
    ...(verdict.before === verdict.after ? [] : [VERDICT_WORDS[verdict.after]]),
  ];
  if (parts.length === 0 && isSamePlan) return 'Nothing changes';
  if (parts.length === 0) return heats.length === 0 ? 'Nothing changes but the order' : 'Nothing changes that counts';
  const sentence = parts.join('; ');
  return sentence[0]!.toUpperCase() + sentence.slice(1);
}

const VERDICT_WORDS = {
  clear_to_heat: 'now the plan is clear to heat',
  caution: 'now the plan has something to mind',
  problem: 'now the plan has a problem',
} as const;

function countOf(count: number, says: { one: string; more: (count: number) => string }): string[] {
  if (count === 0) return [];
  return [count === 1 ? says.one : says.more(count)];
}

/** Problems named at most. */
const MOST_NAMED = 2;

function whichOf(problems: WhatIf['problems']['new']): string {
  const named = problems.slice(0, MOST_NAMED).map(({ heat, says }) => `in heat ${heat}, ${says}`);
  return [...named, ...(problems.length > MOST_NAMED ? ['and others'] : [])].join('; ');
}

/** Of the joints with another verdict the one that is worst, before or after. */
function lotOf(heats: readonly ChangedHeat[]): string[] {
  const changed = heats
    .flatMap(({ after: heat, earlierJoints }) => earlierJoints.map((joint) => ({ ...joint, heat })))
    .flatMap(({ joint, heat, before, after }) =>
      before && after && before.verdict !== after.verdict ? [{ joint, heat, was: before.verdict, is: after }] : [],
    )
    .toSorted((a, b) => worstOf(a) - worstOf(b));
  return changed.slice(0, 1).map(({ joint, heat, was, is: { verdict, solidMarginK } }) => {
    const becomes = verdict === 'stays_solid' ? `stays solid by ${Math.round(solidMarginK)} °C` : IN_WORDS[verdict];
    return `predicted for ${joint} in heat ${heat}: it ${becomes}; before, it ${IN_WORDS[was]}`;
  });
}

type Verdict = (typeof WORST_FIRST)[number];

const worstOf = ({ was, is }: { was: Verdict; is: { verdict: Verdict } }): number =>
  Math.min(WORST_FIRST.indexOf(was), WORST_FIRST.indexOf(is.verdict));

function flowOf(heats: readonly ChangedHeat[]): string[] {
  return heats.flatMap(({ after, flow }) => {
    if (flow.before === null || flow.after === null || flow.before === flow.after) return [];
    const is = {
      flows: `heat ${after} flows`,
      only_just: `heat ${after} only just flows`,
      does_not_flow: `heat ${after} does not flow`,
    };
    return [is[flow.after]];
  });
}

/** Tenths are noise. */
function inTime(
  { before, after }: { before: number | null; after: number | null },
  says: { more: (off: number) => string; less: (off: number) => string },
): string[] {
  if (before === null || after === null) return [];
  const off = Math.round(after - before);
  if (off === 0) return [];
  return [off > 0 ? says.more(off) : says.less(-off)];
}
