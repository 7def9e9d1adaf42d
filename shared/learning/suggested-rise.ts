import { EngineInputError } from '../engine-input-error.ts';
import { shownShare } from './shown-share.ts';

/** A made joint that was heated again. */
export interface HeatedAgain {
  /** Liquidus of its solder less the predicted peak, without any rise. */
  runMarginK: number;
  remelted: boolean;
}

/** Joints that were predicted to run, and would not be with a rise of toK. */
export interface RiseStep {
  fromK: number;
  toK: number;
  joints: number;
  remelts: number;
  /** The true share of remelts lies between these, as of shownShare. */
  least: number;
  most: number;
  /** At most one in ten ran, honestly counted. */
  supported: boolean;
}

export interface SuggestedRise {
  /** Those with joints in them, from 0 K up. */
  steps: RiseStep[];
  /** The highest rise of which every step up to it is supported; 0: none. */
  supportedK: number;
  /** What to change the rise to; null: leave it. */
  suggestedK: number | null;
  says: string;
}

const STEP_K = 5;
/** Beyond it a studio has to say why: nobody has shown a rise of more. By judgement. */
const MOST_K = 15;
/** A step counts once no more than this share can have run; of none at all that takes 30 joints, by the rule of three. */
const MOST_SHARE = 0.1;

/**
 * How much hotter a made joint seems to melt than its strip, from joints that were predicted to run.
 *
 * Step by step of 5 K: joints whose liquidus the predicted peak was over by more than fromK and at most toK. Where the upper bound of
 * the share that ran is at most 0.1, so much rise is supported; the first step without enough joints ends it, so the joints of one
 * step never speak for the next. A rise in use is contradicted by a step under it whose lower bound is over 0.1.
 *
 * A rise and a heat that is predicted too hot look the same in this record.
 *
 * @param joints without anti-flow or the like on them, whose heat flowed
 * @param inUseK the rise that plans are checked with, ≥ 0
 * @throws {EngineInputError} for a margin or a rise that is no finite number
 * @source the bounds as of shownShare; steps and limits by judgement
 */
export function suggestedRise(joints: readonly HeatedAgain[], inUseK: number): SuggestedRise {
  if (!(inUseK >= 0 && inUseK < Infinity)) throw new EngineInputError('inUseK', inUseK, '>= 0');
  for (const { runMarginK } of joints)
    if (!Number.isFinite(runMarginK)) throw new EngineInputError('runMarginK', runMarginK, 'finite');
  const all = Array.from({ length: MOST_K / STEP_K }, (_, index) => stepOf(joints, index * STEP_K));
  const gap = all.findIndex(({ supported }) => !supported);
  const supportedK = gap === -1 ? MOST_K : gap * STEP_K;
  const contradicted = all.find(({ fromK, least }) => fromK < inUseK && least > MOST_SHARE);
  const suggestedK = contradicted ? contradicted.fromK : supportedK > inUseK ? supportedK : null;
  const steps = all.filter((step) => step.joints > 0);
  return { steps, supportedK, suggestedK, says: say({ steps, supportedK, contradicted, inUseK }) };
}

function stepOf(joints: readonly HeatedAgain[], fromK: number): RiseStep {
  const toK = fromK + STEP_K;
  const own = joints.filter(({ runMarginK }) => runMarginK < -fromK && runMarginK >= -toK);
  const remelts = own.filter(({ remelted }) => remelted).length;
  const { least, most } = shownShare({ happened: remelts, times: own.length });
  return { fromK, toK, joints: own.length, remelts, least, most, supported: own.length > 0 && most <= MOST_SHARE };
}

function say({
  steps,
  supportedK,
  contradicted,
  inUseK,
}: {
  steps: RiseStep[];
  supportedK: number;
  contradicted: RiseStep | undefined;
  inUseK: number;
}): string {
  const counted = (from: RiseStep[]) => {
    const [joints, remelts] = [sumOf(from, 'joints'), sumOf(from, 'remelts')];
    return remelts === 0 ? `none of ${joints} ran` : `${remelts} of ${joints} ran`;
  };
  if (contradicted)
    return `of joints predicted to run by ${contradicted.fromK} to ${contradicted.toK} K ${counted([contradicted])}: the record speaks against the ${inUseK} K in use`;
  if (supportedK > inUseK)
    return `of joints predicted to run by up to ${supportedK} K ${counted(steps.filter(({ toK }) => toK <= supportedK))}: the record supports a rise of ${supportedK} K`;
  if (supportedK > 0 && supportedK === inUseK) return `the record bears out the ${inUseK} K in use`;
  const next = steps.find(({ fromK }) => fromK === supportedK);
  const known = next
    ? `of joints predicted to run by ${next.fromK} to ${next.toK} K ${counted([next])}`
    : 'no joint that was predicted to run has been heated';
  return inUseK > 0
    ? `${known}: that supports no rise of ${inUseK} K, nor speaks against it`
    : `${known}: that supports no rise, nor speaks against it`;
}

function sumOf(steps: readonly RiseStep[], of: 'joints' | 'remelts'): number {
  return steps.reduce((sum, step) => sum + step[of], 0);
}
