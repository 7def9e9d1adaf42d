import { expandHeat } from '../design/expand-design.ts';
import type { Heat } from '../design/plan.ts';
import type { SolderRun } from '../thermal/heat-run.ts';
import { protectionWords } from './flow-tries.ts';
import { jointsBefore, playPlanned } from './heat-question.ts';
import type { HeatCheck, ProtectionCost } from './plan-check-answer.ts';
import type { PlanToCheck } from './plan-to-check.ts';

/** Heats simulated for one request to tell what protections cost. */
const MOST_PLAYED = 100;

/** Less than this is next to nothing. */
const LEAST_S = 0.5;

/**
 * What each sink, shield and tilt of a plan costs in seconds: the time to flow as planned less that without it, all else as it is.
 * Anti-flow changes no temperature, so it costs none. A counted joint's protections are one, taken away from all its copies.
 *
 * @param checks of the heats of the plan, in its order
 * @returns the checks, those of heats with a protection or a tilt with their costs; costs that are left out when `isStopped` says so,
 *   or past 100 heats played, are null and say so
 */
export function* withProtectionCosts(
  input: PlanToCheck,
  checks: readonly HeatCheck[],
  { isStopped = () => false }: { isStopped?: (() => boolean) | undefined },
): Generator<void, HeatCheck[]> {
  const expanded = input.plan.heats.map((heat) => expandHeat(heat, input));
  let left = MOST_PLAYED;
  const costed: HeatCheck[] = [];
  for (const [i, check] of checks.entries()) {
    const heat = input.plan.heats[i]!;
    const costs: ProtectionCost[] = [];
    const before = jointsBefore(input, expanded, i);
    const run = (bare: Heat, layered = false): SolderRun => playPlanned(input, expandHeat(bare, input), before, layered).run;
    for (const { what, words, without } of takenAway(heat)) {
      if (without === null) costs.push({ ...what, extraS: 0, says: `${words}: costs no time` });
      else if (left === 0 || isStopped()) costs.push({ ...what, extraS: null, says: `${words}: not reckoned for want of time` });
      else {
        left--;
        costs.push({ ...what, ...costOf(words, ...timesOf(run, heat, without)) });
        yield;
      }
    }
    costed.push(costs.length > 0 && heat.joints.length > 0 ? { ...check, protectionCosts: costs } : check);
  }
  return costed;
}

/** Seconds to flow of two heats, both with the support modelled as the one that needs it most has it. */
function timesOf(run: (heat: Heat, layered?: boolean) => SolderRun, one: Heat, other: Heat): [number | null, number | null] {
  const runs = [run(one), run(other)] as const;
  const layered = runs[0].layered !== runs[1].layered;
  const [a, b] = layered ? [run(one, true), run(other, true)] : runs;
  return [a.timeToFlowS, b.timeToFlowS];
}

interface TakenAway {
  what: Pick<ProtectionCost, 'protection' | 'flame'>;
  words: string;
  /** The heat without it; null where that is the same to the metal. */
  without: Heat | null;
}

function takenAway(heat: Heat): TakenAway[] {
  const { protections = [], flame } = heat;
  const taken = protections.map((protection, k): TakenAway => {
    const without = { ...heat, protections: protections.filter((_, i) => i !== k) };
    return {
      what: { protection },
      words: sentenceCase(protectionWords(protection)),
      without: protection.kind === 'anti_flow' ? null : without,
    };
  });
  if (!flame || (flame.tiltDeg ?? 0) === 0) return taken;
  const { tiltDeg: _tilt, towards: _towards, awayFrom: _away, ...upright } = flame;
  return [...taken, { what: { flame }, words: 'The tilt of the flame', without: { ...heat, flame: upright } }];
}

const sentenceCase = (words: string): string => words[0]!.toUpperCase() + words.slice(1);

function costOf(words: string, withS: number | null, withoutS: number | null): Pick<ProtectionCost, 'extraS' | 'says'> {
  if (withS === null && withoutS === null) return { extraS: null, says: `${words}: it does not flow with or without` };
  if (withS === null)
    return { extraS: null, says: `${words}: without, it flows in about ${Math.round(withoutS!)} s; with, it does not` };
  if (withoutS === null)
    return { extraS: null, says: `${words}: with, it flows in about ${Math.round(withS)} s; without, it does not` };
  const extraS = withS - withoutS;
  if (Math.abs(extraS) < LEAST_S) return { extraS, says: `${words}: costs next to no time` };
  return { extraS, says: `${words}: about ${Math.max(1, Math.round(Math.abs(extraS)))} s ${extraS > 0 ? 'slower' : 'sooner'}` };
}
