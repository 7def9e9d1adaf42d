/** What one plan costs and gains beside another, in words. */

import type { LevelName, Proof } from './levels.ts';

export type LevelValues = Readonly<Record<LevelName, number>>;

export function levelsOf(proof: readonly Proof[]): LevelValues {
  const valueOf = (level: LevelName): number => proof.find((each) => each.level === level)?.value ?? 0;
  return {
    margin: valueOf('margin'),
    protections: valueOf('protections'),
    heats: valueOf('heats'),
    grades: valueOf('grades'),
    preference: valueOf('preference'),
    time: valueOf('time'),
  };
}

/** So much margin counts as much as one heat or one protection. K. Judgement. */
const MARGIN_STEP_K = 10;
/** Higher or lower solders count less than one solder more. */
const RANK_STEP = 0.5;

interface Change {
  /** Below zero it is gained. */
  steps: number;
  says: string;
}

/**
 * @param differs what the hand does otherwise
 * @returns what it costs less what it gains, a heat, a protection, a solder or 10 K of margin counting one; how much it gains; words
 */
export function tradeOffOf(
  from: LevelValues,
  to: LevelValues,
  differs: readonly string[],
): { worse: number; gains: number; says: string } {
  const { gains, costs } = changesInWords(from, to);
  const how = differs.length > 0 ? `: ${differs.join('; ')}` : '';
  const worse = changesOf(from, to).reduce((sum, { steps }) => sum + steps, 0);
  return { worse, gains: gains.length, says: `${balance(gains, costs)}${how}` };
}

export function changesInWords(from: LevelValues, to: LevelValues): { gains: string[]; costs: string[] } {
  const changes = changesOf(from, to);
  return {
    gains: changes.filter(({ steps }) => steps < 0).map(({ says }) => says),
    costs: changes.filter(({ steps }) => steps > 0).map(({ says }) => says),
  };
}

function balance(gains: readonly string[], costs: readonly string[]): string {
  if (gains.length === 0 && costs.length === 0) return 'Costs nothing more';
  if (costs.length === 0) return `Gains ${gains.join(', ')}; costs nothing more`;
  if (gains.length === 0) return `Costs ${costs.join(', ')}`;
  return `Gains ${gains.join(', ')}; costs ${costs.join(', ')}`;
}

const COUNTED = {
  protections: (count: number) => (count === 1 ? '1 protection' : `${count} protections`),
  heats: (count: number) => (count === 1 ? '1 heat' : `${count} heats`),
  grades: (count: number) => (count === 1 ? '1 solder' : `${count} solders`),
};

function changesOf(from: LevelValues, to: LevelValues): Change[] {
  const off = (level: LevelName): number => to[level] - from[level];
  const changeOf = (level: keyof typeof COUNTED): Change => {
    const counted = COUNTED[level](Math.abs(off(level)));
    return { steps: off(level), says: off(level) > 0 ? `${counted} more` : `${counted} fewer` };
  };
  const rank = off('preference');
  // With fewer or more joints of each, only the sum is known.
  const ranks: Change = {
    steps: Math.sign(rank) * RANK_STEP,
    says: rank < 0 ? 'solders that melt higher' : 'solders that melt lower',
  };
  const marginK = off('margin');
  const margin: Change = {
    steps: -marginK / MARGIN_STEP_K,
    says: `${Math.abs(marginK)} °C ${marginK > 0 ? 'more' : 'less'} margin`,
  };
  return [margin, changeOf('protections'), changeOf('heats'), changeOf('grades'), ranks].filter(({ steps }) => steps !== 0);
}

/** The same of a plan in which earlier joints may soften, beside the one in which they stay solid. */
export function softerTradeOff(solid: readonly Proof[], soft: readonly Proof[]): string {
  const [from, to] = [levelsOf(solid), levelsOf(soft)];
  const changes = changesOf({ ...from, margin: 0 }, { ...to, margin: 0 }).map(({ says }) => says);
  const timeMin = Math.round((to.time - from.time) / 60);
  const marginK = to.margin - from.margin;
  const parts = [
    ...(marginK === 0 ? [] : [`${Math.abs(marginK)} °C ${marginK > 0 ? 'more' : 'less'} margin, counted to where joints run`]),
    ...changes,
    ...(timeMin === 0 ? [] : [`${Math.abs(timeMin)} min ${timeMin > 0 ? 'more' : 'less'}`]),
  ];
  const given = parts.length > 0 ? parts.join(', ') : 'as many heats, protections and solders';
  return `Earlier joints may soften, none runs: ${given}`;
}
