/** What a search has to say in words about its plans and about itself. */

import type { DesignQuestion } from './design-problem.ts';
import { sectionMeansTogether } from './heat-model-oracle.ts';
import type { LevelsFound } from './search-levels.ts';

/** Of a plan that was looked for after the clock had ended the search. */
const isQuick = ({ heats, proof, stoppedBy }: LevelsFound): boolean =>
  heats !== null && stoppedBy !== null && proof.every(({ bound }) => bound === null);

/** What was tried, so that a proof is not read for more than it is. */
export function searchedSentences(
  { protections, design }: DesignQuestion,
  tried: readonly { policy: string; found: LevelsFound }[],
  isCutShort: boolean,
): string[] {
  const sentences = [
    'Every order, grouping and solder that the rules allow, one run of the heat model for each section and set of targets',
  ];
  if (protections.length === 0) sentences.push('No protections: none were allowed');
  else {
    const together = sectionMeansTogether(design) === 2 ? 'at most two' : 'at most three';
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
  if (tried.some(({ found }) => isQuick(found))) sentences.push('The plan shown was found in a few steps, without protections');
  if (isCutShort) sentences.push('What would let it be made was not tried to the end');
  return sentences;
}
