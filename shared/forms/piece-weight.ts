import { sum } from '../decimal.ts';
import type { Design } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { getMetal } from '../materials/metal.ts';
import { weigh } from './form-size.ts';

export interface PieceWeight {
  /** Volume, mass and wetted surface of each part, all of its count together. */
  parts: { part: string; volumeMm3: number; massG: number; areaMm2: number }[];
  totalG: number;
  /** Share of silver by mass in all parts together, 0–1; solder is not in it. */
  fineness: number;
}

/**
 * What a piece weighs before it is soldered, and how fine it is.
 *
 * m = V · ρ / 1000 a part; fineness = Σ m · fineness / Σ m.
 *
 * @throws {EngineInputError} for a design without parts, an unknown metal, a count that is no whole number from 1, or sizes
 *   that formSize() refuses
 * @source conservation of mass; sizes as in formSize()
 */
export function pieceWeight(design: Pick<Design, 'parts'>): PieceWeight {
  if (design.parts.length === 0) throw new EngineInputError('parts', 'none', 'at least one');
  const weighed = design.parts.map((part) => {
    const metal = getMetal(part.metal);
    const count = countOf(part);
    const one = weigh(part.form, metal.densityGPerCm3, part.id);
    const massG = one.massG.times(count);
    return {
      part: part.id,
      volumeMm3: one.volumeMm3.times(count),
      massG,
      areaMm2: one.areaMm2.times(count),
      fineG: massG.times(metal.finenessFraction),
    };
  });
  const totalG = sum(weighed.map(({ massG }) => massG));
  return {
    parts: weighed.map(({ part, volumeMm3, massG, areaMm2 }) => ({
      part,
      volumeMm3: volumeMm3.toNumber(),
      massG: massG.toNumber(),
      areaMm2: areaMm2.toNumber(),
    })),
    totalG: totalG.toNumber(),
    fineness: sum(weighed.map(({ fineG }) => fineG))
      .div(totalG)
      .toNumber(),
  };
}

/** How many identical parts or joints one entry of a design stands for. */
export function countOf({ id, count = 1 }: { id: string; count?: number }): number {
  if (!(Number.isSafeInteger(count) && count >= 1)) throw new EngineInputError(`${id}.count`, count, 'a whole number from 1');
  return count;
}
