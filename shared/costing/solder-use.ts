import { Decimal, sum } from '../decimal.ts';
import type { JointCommon, Part, Place } from '../design/design.ts';
import { formFinder, withOwnSizes } from '../design/own-sizes.ts';
import type { Solder } from '../design/solder.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { massOf } from '../forms/form-size.ts';
import { countOf } from '../forms/piece-weight.ts';
import { groupBy } from '../group-by.ts';
import { jointVolume, type GapJoint, type JointVolume } from './joint-volume.ts';

export interface SolderUse {
  joints: {
    joint: string;
    gapVolumeMm3: number;
    filletVolumeMm3: number;
    /** What stays: it counts in the finished weight. */
    inJointG: number;
    /** What is laid on, of the product as it comes: paste with its binder. */
    placedG: number;
    decidedBy: 'volume' | 'smallest_piece';
  }[];
  /** By solder, in the order of first use. */
  bySolder: { solder: string; placedG: number }[];
}

/** A joint as it is priced; where it lies matters only for the band a loop base takes its sizes from. */
export type SolderedJoint = GapJoint &
  Pick<JointCommon, 'solder' | 'trimFraction' | 'pieces' | 'count' | 'made'> & {
    between?: readonly [Place, Place];
    closes?: string;
  };

/** What of a solder decides how much of it is placed. */
export type PlacedSolder = Pick<Solder, 'id' | 'densityGPerCm3' | 'smallestPieceG' | 'metalFraction'>;

/**
 * How much solder each joint of a design takes, and how much of it is laid on; joints that are made already take none.
 *
 * In the joint: V · ρ / 1000. Placed: the larger of that · (1 + trim) / metal fraction, and pieces · smallest piece: in
 * small joints the smallest chip a person can cut decides. Identical joints are told together.
 *
 * @throws {EngineInputError} for a joint without a solder, a solder that is not given or has no density, or sizes that
 *   jointVolume() refuses
 * @source geometry; trim 0.3 and the smallest chip are workshop practice
 */
export function solderUse({
  design,
  solders,
}: {
  design: { parts: readonly Pick<Part, 'id' | 'form' | 'count'>[]; joints: readonly SolderedJoint[] };
  solders: readonly PlacedSolder[];
}): SolderUse {
  const used = placeSolder(design, solders);
  return {
    joints: used.map(({ joint, gapMm3, filletMm3, inJointG, placedG, decidedBy }) => ({
      joint: joint.id,
      gapVolumeMm3: gapMm3.toNumber(),
      filletVolumeMm3: filletMm3.toNumber(),
      inJointG: inJointG.toNumber(),
      placedG: placedG.toNumber(),
      decidedBy,
    })),
    bySolder: bySolder(used).map(({ solder, placedG }) => ({ solder: solder.id, placedG: placedG.toNumber() })),
  };
}

export interface PlacedJoint<S extends PlacedSolder> extends JointVolume {
  joint: SolderedJoint;
  solder: S;
  inJointG: Decimal;
  placedG: Decimal;
  decidedBy: 'volume' | 'smallest_piece';
}

/** The same exactly, joint by joint. */
export function placeSolder<S extends PlacedSolder>(
  { parts, joints }: { parts: readonly Pick<Part, 'id' | 'form' | 'count'>[]; joints: readonly SolderedJoint[] },
  solders: readonly S[],
): PlacedJoint<S>[] {
  const formOf = formFinder(parts);
  return joints
    .filter(({ made }) => made === undefined)
    .map((joint) => {
      const solder = solders.find(({ id }) => id === joint.solder);
      if (!solder) {
        throw new EngineInputError(
          `${joint.id}.solder`,
          joint.solder ?? 'not given',
          `one of ${solders.map(({ id }) => id).join(', ')}`,
        );
      }
      const { densityGPerCm3, smallestPieceG = 0, metalFraction = 1 } = solder;
      const { trimFraction = 0.3, pieces = 1 } = joint;
      if (densityGPerCm3 === undefined)
        throw new EngineInputError(`${solder.id}.densityGPerCm3`, 'not given', 'given, to weigh solder');
      mustBe(`${solder.id}.densityGPerCm3`, densityGPerCm3, densityGPerCm3 > 0, '> 0');
      mustBe(`${solder.id}.smallestPieceG`, smallestPieceG, smallestPieceG >= 0, '0 or more');
      mustBe(`${solder.id}.metalFraction`, metalFraction, metalFraction > 0 && metalFraction <= 1, 'above 0, to 1');
      mustBe(`${joint.id}.trimFraction`, trimFraction, trimFraction >= 0, '0 or more');
      mustBe(`${joint.id}.pieces`, pieces, Number.isSafeInteger(pieces) && pieces >= 1, 'a whole number from 1');
      const count = countOf(joint);
      const one = jointVolume(withOwnSizes(joint, formOf));
      const inJointG = massOf(one.gapMm3.plus(one.filletMm3), densityGPerCm3);
      const byVolumeG = inJointG.times(new Decimal(1).plus(trimFraction)).div(metalFraction);
      const leastG = new Decimal(smallestPieceG).times(pieces);
      return {
        joint,
        solder,
        gapMm3: one.gapMm3.times(count),
        filletMm3: one.filletMm3.times(count),
        inJointG: inJointG.times(count),
        placedG: Decimal.max(byVolumeG, leastG).times(count),
        decidedBy: leastG.greaterThan(byVolumeG) ? 'smallest_piece' : 'volume',
      };
    });
}

/** What is placed of each solder, in the order of first use. */
export function bySolder<S extends PlacedSolder>(used: readonly PlacedJoint<S>[]): { solder: S; placedG: Decimal }[] {
  return [...groupBy(used, ({ solder }) => solder)].map(([solder, joints]) => ({
    solder,
    placedG: sum(joints.map(({ placedG }) => placedG)),
  }));
}

function mustBe(quantity: string, given: number, good: boolean, allowed: string): void {
  if (!(good && given < Infinity)) throw new EngineInputError(quantity, given, allowed);
}
