import type { Heat } from '../design/plan.ts';
import { toFive } from '../thermal/to-five.ts';
import { pairTries, singleTries, type FlowTries, type FlowTry } from './flow-tries.ts';
import { checkHeat, problemsOf } from './heat-check.ts';
import { jointsBefore } from './heat-question.ts';
import type { FlowHelp } from './plan-check-answer.ts';
import { planOf } from './plan-of-heats.ts';
import type { PlanToCheck } from './plan-to-check.ts';

export interface FlowHelps {
  helps: FlowHelp[];
  nothingHelps: string | null;
  /** What was found, to be made an edit of the plan. */
  tries: FlowTry[];
}

interface Helped {
  tried: FlowTry;
  help: FlowHelp;
  harms: boolean;
}

/**
 * What would bring a heat to flow that does not: each thing tried alone by simulating that one heat, and where none helps two things
 * together. The gentlest first, after them those that would melt a part or an earlier joint, and say so. Of more powerful torches
 * none is tried after the first that flows and harms nothing.
 *
 * @param mayTry asked before each simulation; false: nothing more is tried, and that nothing helps is not claimed
 * @returns no help, and a sentence with the highest temperature come to, where all was in vain
 */
export function* flowHelps(
  input: PlanToCheck,
  heats: readonly Heat[],
  { number, mayTry }: { number: number; mayTry: () => boolean },
): Generator<void, FlowHelps> {
  const before = jointsBefore(input, heats, number - 1);
  const heat = heats[number - 1]!;
  const asked = { context: input, number, heat, made: [...before.keys()] };
  // Known from the check that found it stuck.
  const planned = checkHeat(input, heat, number, before);
  const best = { settlesC: planned.settlesC ?? -Infinity, by: 'as it is planned' };
  let isCutShort = false;
  function* tryThem(all: readonly FlowTries[]): Generator<void, Helped[]> {
    const found: Helped[] = [];
    for (const tries of all) {
      for (const each of tries) {
        if (!mayTry()) {
          isCutShort = true;
          return found;
        }
        const check = checkHeat(input, each.heat, number, before);
        yield;
        if (check.flow === 'does_not_flow') {
          if (check.settlesC !== null && check.settlesC > best.settlesC)
            Object.assign(best, { settlesC: check.settlesC, by: `with ${each.says}` });
          continue;
        }
        const harm = problemsOf(check)[0];
        const timeToFlowS = check.timeToFlowS!;
        const inS = Math.round(timeToFlowS);
        const flows = check.flow === 'flows' ? `flows in about ${inS} s` : `flows only just, in about ${inS} s`;
        const says = `With ${each.says}: ${harm ? `${flows}, but ${harm.says}` : flows}`;
        const becomes = planOf(input, [each.heat]).heats[0]!;
        found.push({
          tried: each,
          help: { change: { ...each.edit, becomes }, flow: check.flow, timeToFlowS, says },
          harms: harm !== undefined,
        });
        if (check.flow === 'flows' && !harm) break;
      }
    }
    return found;
  }
  let found = yield* tryThem(singleTries(asked));
  if (found.length === 0 && !isCutShort) found = yield* tryThem(pairTries(asked));
  const ordered = [...found.filter(({ harms }) => !harms), ...found.filter(({ harms }) => harms)];
  const inVain = found.length === 0 && !isCutShort;
  return {
    helps: ordered.map(({ help }) => help),
    tries: ordered.map(({ tried }) => tried),
    nothingHelps: inVain
      ? `Nothing that was tried brings it to flow: ${best.by} it comes nearest, and settles at about ${toFive(best.settlesC)} °C`
      : null,
  };
}
