import { Decimal, sum } from '../decimal.ts';
import { weigh } from '../forms/form-size.ts';
import { countOf } from '../forms/piece-weight.ts';
import type { EstimateRequest, PricedMetal, PricedSolder } from './estimate-request.ts';
import { finder } from './inputs.ts';
import { placeSolder } from './solder-use.ts';

/** What a place asks of a piece that is sold as silver; null: nothing is entered. */
export interface FinenessRule {
  /** Every solder in it is at least so fine. */
  leastSolderFinenessFraction: number | null;
  /** How far the parts together, and the whole with its solder, may fall short of the standard. */
  toleranceWithoutSolderFraction: number | null;
  toleranceWithSolderFraction: number | null;
  /** A mark is needed over this weight. */
  markOverG: number | null;
}

export interface Fineness {
  /** The standard that every part reaches: 0.999, 0.958, 0.925 or 0.8; null when a part reaches none. */
  standardFraction: number | null;
  withoutSolderFraction: number;
  /** With what stays of the solder in its joints; null when the silver of a solder is not known. */
  wholeFraction: number | null;
  /** Of the solders whose silver is known; null when of none. */
  leastSolderFraction: number | null;
  finishedG: number;
  finding: 'within' | 'outside' | 'unknown' | 'no_rule';
  says: string[];
}

export type Weighable = Pick<EstimateRequest, 'design'> & {
  metals: readonly Pick<PricedMetal, 'id' | 'densityGPerCm3' | 'fineness'>[];
  solders: readonly Omit<PricedSolder, 'price'>[];
  /** Silver of what was really put in; undefined: a product that does not say. */
  putIn?: readonly (number | undefined)[];
};

/** Standards of silver. @source ISO 9202; which finenesses it lists is from memory */
const STANDARDS = [0.999, 0.958, 0.925, 0.8];

/**
 * The standard that a metal of this fineness reaches; null for none.
 *
 * @source ISO 9202; which finenesses it lists is from memory
 */
export function standardOf(finenessFraction: number): number | null {
  return STANDARDS.find((standard) => finenessFraction >= standard) ?? null;
}

/**
 * How fine a piece is with the solder that stays in it, beside what the place of its sale asks.
 *
 * F = (Σ m_part · fineness + Σ m_joint · silver)/Σ m. A piece is of the standard that its least fine part reaches.
 *
 * @param rule of the place; null: none is entered, and nothing is found
 * @throws {EngineInputError} for an unknown metal or solder, or sizes that weigh() or placeSolder() refuse
 * @source conservation of mass; the rules are the studio's to enter, from the office that marks its work
 */
export function fineness({ design, metals, solders, putIn = [] }: Weighable, rule: FinenessRule | null): Fineness {
  const metalOf = finder(metals);
  const parts = design.parts.map((part) => {
    const metal = metalOf(part.metal, `${part.id}.metal`);
    return { fineness: metal.fineness, massG: weigh(part.form, metal.densityGPerCm3, part.id).massG.times(countOf(part)) };
  });
  const joints = placeSolder(design, solders);
  const partsG = sum(parts.map(({ massG }) => massG));
  const partsFineG = sum(parts.map((part) => part.massG.times(part.fineness)));
  const finishedG = partsG.plus(sum(joints.map(({ inJointG }) => inJointG)));
  const silver = [...joints.map(({ solder }) => solder.silverFraction), ...putIn];
  const solderFineG = sum(joints.map(({ inJointG, solder }) => inJointG.times(solder.silverFraction ?? 0)));
  const known = silver.filter((one) => one !== undefined);
  const isKnown = known.length === silver.length;
  const leastPart = Math.min(...parts.map((part) => part.fineness));
  const found = {
    standardFraction: standardOf(leastPart),
    withoutSolderFraction: partsG.isZero() ? 0 : partsFineG.div(partsG).toNumber(),
    wholeFraction: isKnown && !finishedG.isZero() ? partsFineG.plus(solderFineG).div(finishedG).toNumber() : null,
    leastSolderFraction: known.length > 0 ? Math.min(...known) : null,
    finishedG: finishedG.toNumber(),
  };
  return { ...found, ...againstRule(found, { rule, isKnown }) };
}

function againstRule(
  found: Omit<Fineness, 'finding' | 'says'>,
  { rule, isKnown }: { rule: FinenessRule | null; isKnown: boolean },
): Pick<Fineness, 'finding' | 'says'> {
  if (!rule) return { finding: 'no_rule', says: ['No rule is entered for this place: ask the office named on your packet'] };
  const { standardFraction: standard, withoutSolderFraction, wholeFraction, leastSolderFraction, finishedG } = found;
  const unknown = [
    ...(standard === null ? ['A part is below every standard of silver: it may not be sold as one'] : []),
    ...(isKnown ? [] : ['The silver of a solder is not known, so the whole cannot be told']),
  ];
  const { leastSolderFinenessFraction: leastSolder } = rule;
  const outside = [
    ...(leastSolder !== null && leastSolderFraction !== null && leastSolderFraction < leastSolder
      ? [`Its least fine solder is ${permille(leastSolderFraction)}, under this place's ${permille(leastSolder)}`]
      : []),
    ...tooLow((is, under) => `Without solder it is ${is}, under ${under}`, withoutSolderFraction, {
      standard,
      tolerance: rule.toleranceWithoutSolderFraction,
    }),
    ...tooLow((is, under) => `With its solder it is ${is}, under ${under}`, wholeFraction, {
      standard,
      tolerance: rule.toleranceWithSolderFraction,
    }),
  ];
  const marking =
    rule.markOverG !== null && finishedG > rule.markOverG
      ? [`It needs a mark: over ${rule.markOverG} g, at ${finishedG.toFixed(2)} g before it is finished`]
      : [];
  const finding = outside.length > 0 ? 'outside' : unknown.length > 0 ? 'unknown' : 'within';
  return { finding, says: [...outside, ...unknown, ...marking] };
}

function tooLow(
  says: (is: string, under: string) => string,
  share: number | null,
  { standard, tolerance }: { standard: number | null; tolerance: number | null },
): string[] {
  if (share === null || standard === null || tolerance === null) return [];
  const least = new Decimal(standard).minus(tolerance);
  return least.greaterThan(share) ? [says(permille(share), permille(least.toNumber()))] : [];
}

/** "914.2 ‰", never rounded up to what it does not reach. */
function permille(share: number): string {
  return `${new Decimal(share).times(1000).toDecimalPlaces(1, Decimal.ROUND_DOWN).toString()} ‰`;
}
