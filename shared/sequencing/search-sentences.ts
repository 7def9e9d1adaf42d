/** What a search has to say in words about its plans and about itself. */

import type { DesignQuestion } from './design-problem.ts';
import { sectionMeansTogether } from './heat-model-oracle.ts';
import type { LevelName, Proof } from './levels.ts';
import type { LevelsFound } from './search-levels.ts';

function difference(level: LevelName, from: readonly Proof[], to: readonly Proof[]): number {
  const valueIn = (proof: readonly Proof[]): number => proof.find((each) => each.level === level)?.value ?? 0;
  return valueIn(to) - valueIn(from);
}

function counted(count: number, one: string, many = `${one}s`): string | null {
  if (count === 0) return null;
  return `${Math.abs(count)} ${Math.abs(count) === 1 ? one : many} ${count > 0 ? 'more' : 'fewer'}`;
}

/** What the alternative, in which earlier joints may soften, costs and spares beside the plan in which they stay solid. */
export function tradeOff(plan: readonly Proof[], alternative: readonly Proof[]): string {
  const marginK = difference('margin', plan, alternative);
  const rank = difference('preference', plan, alternative);
  const timeMin = Math.round(difference('time', plan, alternative) / 60);
  const parts = [
    marginK === 0 ? null : `${Math.abs(marginK)} °C ${marginK > 0 ? 'more' : 'less'} margin, counted to where joints run`,
    counted(difference('protections', plan, alternative), 'protection'),
    counted(difference('heats', plan, alternative), 'heat'),
    counted(difference('grades', plan, alternative), 'solder'),
    rank === 0 ? null : `solders that melt ${rank < 0 ? 'higher' : 'lower'}`,
    timeMin === 0 ? null : `${Math.abs(timeMin)} min ${timeMin > 0 ? 'more' : 'less'}`,
  ].filter((text) => text !== null);
  const given = parts.length > 0 ? parts.join(', ') : 'as many heats, protections and solders';
  return `Earlier joints may soften, none runs: ${given}`;
}

/** What was tried, so that a proof is not read for more than it is. */
export function searchedSentences(
  { protections, design }: DesignQuestion,
  tried: readonly { policy: string; found: LevelsFound }[],
): string[] {
  const sentences = [
    'Every order, grouping and solder that the rules allow, one run of the heat model for each section and set of targets',
  ];
  if (protections.length === 0) sentences.push('No protections: none were allowed');
  else {
    const together = sectionMeansTogether(design) === 2 ? 'at most two' : 'at most one';
    sentences.push(
      `Of flame tilted away, shield and sink ${together} in a heat, each for one earlier joint or limited part; tweezers as the sink; anti-flow beside them where joints may soften`,
    );
  }
  for (const { policy, found } of tried) {
    if (found.stoppedBy)
      sentences.push(
        `Ended early (${found.stoppedBy.replace('_', ' ')}) while looking for plans that ${policy === 'stay_solid' ? 'keep earlier joints solid' : 'keep earlier joints from running'}`,
      );
  }
  return sentences;
}
