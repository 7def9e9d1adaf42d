import type { Load } from '../design/design.ts';
import { toFive } from './to-five.ts';
import { uncertaintyK } from './uncertainty.ts';

export type JointVerdict = 'runs' | 'may_run' | 'held' | 'softens' | 'may_soften' | 'stays_solid';
export type PartVerdict = 'within' | 'near_limit' | 'over_limit';
/** Ordered: nothing to say, something to know, something to mind, something to change. */
export type Severity = 'none' | 'note' | 'caution' | 'problem';

export interface JointReading {
  /** Of its hottest point in this heat. */
  peakC: number;
  solidusC: number;
  liquidusC: number;
  /** To which the target of the heat is brought. */
  flowC: number;
  /** How much hotter the joint melts than its strip. */
  riseK: number;
  calibrated: boolean;
  /** Above its solidus + rise, in this heat. */
  secondsAboveSolidus: number;
  antiFlow?: { budgetS: number };
  load: Load;
}

export interface JointJudgement {
  verdict: JointVerdict;
  severity: Severity;
  uncertaintyK: number;
  /** Below zero it begins to melt. */
  solidMarginK: number;
  /** Below zero it runs. */
  runMarginK: number;
  says: string;
}

export interface PartJudgement {
  verdict: PartVerdict;
  severity: Severity;
  marginK: number;
  says: string;
}

/** Hottest at which anti-flow is trusted to hold, over the liquidus. Judgement. */
export const ANTI_FLOW_OVER_LIQUIDUS_K = 40;
const NEAR_LIMIT_K = 10;
const REACTION_K = 20;

function by(differenceK: number, beyond: 'above' | 'below', what: string): string {
  const rounded = toFive(Math.abs(differenceK));
  if (rounded === 0) return `at about ${what}`;
  return beyond === 'above' ? `${rounded} °C above ${what}` : `${rounded} °C below ${what}`;
}

function verdictOf(reading: JointReading, margins: { solidK: number; runK: number; uncertainK: number }): JointVerdict {
  const { solidK, runK, uncertainK } = margins;
  if (runK < uncertainK) {
    const { antiFlow, secondsAboveSolidus } = reading;
    const isHeld = antiFlow && secondsAboveSolidus <= antiFlow.budgetS && runK >= -ANTI_FLOW_OVER_LIQUIDUS_K;
    if (isHeld) return 'held';
    return runK < 0 ? 'runs' : 'may_run';
  }
  if (solidK < 0) return 'softens';
  return solidK < uncertainK ? 'may_soften' : 'stays_solid';
}

function severityOf(verdict: JointVerdict, load: Load): Severity {
  const pulled = load === 'sprung' || load === 'tied';
  switch (verdict) {
    case 'runs':
    case 'may_run':
      return 'problem';
    case 'held':
      return pulled ? 'problem' : 'caution';
    case 'softens':
    case 'may_soften':
      if (pulled) return 'problem';
      return load === 'own_weight' ? 'caution' : 'note';
    case 'stays_solid':
      return 'none';
  }
}

function sentence(
  verdict: JointVerdict,
  reading: JointReading,
  margins: { solidK: number; runK: number; uncertainK: number },
): string {
  const { solidK, runK, uncertainK } = margins;
  switch (verdict) {
    case 'runs':
      return `Predicted to run: it peaks ${by(runK, 'above', 'its liquidus')}`;
    case 'may_run':
      return `May run: it peaks ${by(runK, 'below', 'its liquidus')}, give or take ${toFive(uncertainK)} °C`;
    case 'held': {
      const leftS = Math.floor(reading.antiFlow!.budgetS - reading.secondsAboveSolidus);
      return `Held by anti-flow with ${leftS} s to spare: don't touch or load it`;
    }
    case 'softens':
      return `Predicted to soften, ${by(solidK, 'above', 'its solidus')} and ${by(runK, 'below', 'where it runs')}: don't touch or lean on it`;
    case 'may_soften':
      return `May soften: it peaks ${by(solidK, 'below', 'its solidus')}, give or take ${toFive(uncertainK)} °C: don't touch or lean on it`;
    case 'stays_solid':
      return `Predicted to stay solid by ${toFive(solidK)} °C`;
  }
}

/**
 * What becomes of an earlier joint in a heat: two margins, the uncertainty of both, a verdict, how much it matters and one sentence.
 *
 * solidMargin = solidus + rise − peak, runMargin = liquidus + rise − peak, K; in this order: runs (runMargin < 0), may_run (< U),
 * softens (solidMargin < 0), may_soften (< U), stays_solid; at equality the milder. *Held* stands for the first two under anti-flow
 * whose seconds are not used up, at most 40 K over the liquidus. Any softening under a spring or a tie is a problem.
 */
export function judgeJoint(reading: JointReading): JointJudgement {
  const { peakC, solidusC, liquidusC, riseK, flowC, calibrated } = reading;
  const margins = {
    solidK: solidusC + riseK - peakC,
    runK: liquidusC + riseK - peakC,
    uncertainK: uncertaintyK({ flowC, peakC, calibrated }),
  };
  const verdict = verdictOf(reading, margins);
  return {
    verdict,
    severity: severityOf(verdict, reading.load),
    uncertaintyK: margins.uncertainK,
    solidMarginK: margins.solidK,
    runMarginK: margins.runK,
    says: sentence(verdict, reading, margins),
  };
}

/**
 * Whether a part keeps under its limit: over_limit above it, near_limit within 10 K under it, else within.
 *
 * A part that carries a target whose flow temperature itself lies within 10 K under the limit (hard solder on sterling: 797 against
 * 802 °C) is brought there on purpose; it is near_limit, a note, up to 20 K beyond: the rise at 40 K/s during half a second of
 * reaction, which the heat model always adds and a hand that watches the metal need not. A limit of the part's own (stone, enamel)
 * has no such normal.
 *
 * @param part its peak and limit (the lower of its solidus, 779 °C if cast, and its own), and targetFlowC where it carries a target
 *   and the limit is its solidus
 */
export function judgePart(part: { peakC: number; limitC: number; targetFlowC?: number }): PartJudgement {
  const { peakC, limitC, targetFlowC } = part;
  const marginK = limitC - peakC;
  const isNormal = targetFlowC !== undefined && targetFlowC <= limitC && limitC - targetFlowC <= NEAR_LIMIT_K;
  if (isNormal && marginK <= NEAR_LIMIT_K && marginK >= -REACTION_K) {
    return {
      verdict: 'near_limit',
      severity: 'note',
      marginK,
      says: 'Comes near its limit, as a target of this solder does: watch it',
    };
  }
  if (marginK < 0)
    return { verdict: 'over_limit', severity: 'problem', marginK, says: `Predicted ${by(marginK, 'above', 'its limit')}` };
  if (marginK > NEAR_LIMIT_K)
    return { verdict: 'within', severity: 'none', marginK, says: `Predicted ${by(marginK, 'below', 'its limit')}` };
  return { verdict: 'near_limit', severity: 'caution', marginK, says: `Near its limit: predicted ${by(marginK, 'below', 'it')}` };
}
