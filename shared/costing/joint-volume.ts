import { Decimal, PI, ZERO } from '../decimal.ts';
import type { JointSizes } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';

/** What a joint is to its solder: a shape with a gap. */
export type GapJoint = JointSizes & { id: string; gapMm: number };

export interface JointVolume {
  gapMm3: Decimal;
  filletMm3: Decimal;
}

/**
 * How much solder fills a joint: its clear space, and a fillet along every corner line that shows.
 *
 * A fillet of radius r in a corner of angle θ has the cross-section r² · (cot(θ/2) − (π − θ)/2): 0.2146 r² at 90°. The
 * lines: two ends of a lap, both sides of a tee, inside and outside of a loop on a base, once round a post; a seam, a
 * butt, a jump ring and a granule show none. Round a post the line is the foot of the post; exactRing takes the ring that the
 * fillet is (Pappus): times 1 + 2x̄/d, with the centroid of the corner's section x̄ = r·(10 − 3π)/(3·(4 − π)) = 0.22337 r at 90°,
 * frozen by recipe 1 as 0.4467 r/d.
 *
 * @param joint sizes in mm, > 0 (a fillet may be 0); angle 0–180° exclusive, 90° when absent
 * @throws {EngineInputError} for a size out of those bounds, a loop base whose sizes nobody says, a neck wider than its granule,
 *   or an exact ring at an angle other than 90°
 * @source circle tangent to both legs of the corner; spherical cap (Machinery's Handbook, 31st ed., mensuration) for the granule
 */
export function jointVolume(joint: GapJoint): JointVolume {
  const size = (quantity: string, given: number | undefined, least: '> 0' | '0 or more' = '> 0'): Decimal => {
    if (given === undefined || !(given < Infinity && (given > 0 || (least === '0 or more' && given === 0)))) {
      throw new EngineInputError(`${joint.id}.${quantity}`, given ?? 'not given', least);
    }
    return new Decimal(given);
  };
  const gapMm = size('gapMm', joint.gapMm);
  const fillet = (radiusMm: number | undefined, lineMm: Decimal, quantity = 'filletMm'): Decimal => {
    if (radiusMm === undefined || radiusMm === 0) return ZERO;
    const angleDeg = 'cornerAngleDeg' in joint ? (joint.cornerAngleDeg ?? 90) : 90;
    return filletSection(size(quantity, radiusMm, '0 or more'), angleDeg, joint.id).times(lineMm);
  };
  switch (joint.kind) {
    case 'seam':
      return {
        gapMm3: size('lengthMm', joint.lengthMm).times(size('thicknessMm', joint.thicknessMm)).times(gapMm),
        filletMm3: ZERO,
      };
    case 'butt':
      return {
        gapMm3: size('widthMm', joint.widthMm).times(size('thicknessMm', joint.thicknessMm)).times(gapMm),
        filletMm3: ZERO,
      };
    case 'lap': {
      const widthMm = size('widthMm', joint.widthMm);
      return {
        gapMm3: widthMm.times(size('overlapMm', joint.overlapMm)).times(gapMm),
        filletMm3: fillet(joint.filletMm, widthMm.times(2)),
      };
    }
    case 'tee': {
      const lengthMm = size('lengthMm', joint.lengthMm);
      return {
        gapMm3: lengthMm.times(size('thicknessMm', joint.thicknessMm)).times(gapMm),
        filletMm3: fillet(joint.filletMm, lengthMm.times(2)),
      };
    }
    case 'loop_base': {
      const insideMm = size('insideDiameterMm', joint.insideDiameterMm);
      const thicknessMm = size('thicknessMm', joint.thicknessMm);
      const inside = fillet(joint.filletInsideMm, PI.times(insideMm), 'filletInsideMm');
      const outside = fillet(joint.filletOutsideMm, PI.times(insideMm.plus(thicknessMm.times(2))), 'filletOutsideMm');
      return { gapMm3: PI.times(insideMm.plus(thicknessMm)).times(thicknessMm).times(gapMm), filletMm3: inside.plus(outside) };
    }
    case 'jump_ring':
      return { gapMm3: round(size('diameterMm', joint.diameterMm)).times(gapMm), filletMm3: ZERO };
    case 'post': {
      const diameterMm = size('diameterMm', joint.diameterMm);
      const byFoot = fillet(joint.filletMm, PI.times(diameterMm));
      return { gapMm3: round(diameterMm).times(gapMm), filletMm3: joint.exactRing ? byFoot.times(ringShare(joint)) : byFoot };
    }
    case 'granule':
      return {
        gapMm3: neck(size('diameterMm', joint.diameterMm).div(2), size('neckRadiusMm', joint.neckRadiusMm), joint.id),
        filletMm3: ZERO,
      };
    default:
      throw new EngineInputError('kind', joint satisfies never, 'a kind of joint');
  }
}

/** 1 − π/4: the usual corner, without a tangent to 40 digits, which would take longer than the rest of an estimate. */
const SQUARE_CORNER: Decimal = new Decimal(1).minus(PI.div(4));

function filletSection(radiusMm: Decimal, angleDeg: number, id: string): Decimal {
  if (!(angleDeg > 0 && angleDeg < 180)) throw new EngineInputError(`${id}.cornerAngleDeg`, angleDeg, 'above 0, below 180');
  return radiusMm.pow(2).times(angleDeg === 90 ? SQUARE_CORNER : cornerShare(PI.times(angleDeg).div(180)));
}

/** cot(θ/2) − (π − θ)/2. */
function cornerShare(angle: Decimal): Decimal {
  return new Decimal(1).div(angle.div(2).tan()).minus(PI.minus(angle).div(2));
}

/** 1 + 0.4467 r/d, for a square corner. */
function ringShare({ id, diameterMm, filletMm = 0, cornerAngleDeg = 90 }: GapJoint & { kind: 'post' }): Decimal {
  if (cornerAngleDeg !== 90) throw new EngineInputError(`${id}.cornerAngleDeg`, cornerAngleDeg, '90 for an exact ring');
  return new Decimal(filletMm).div(diameterMm).times('0.4467').plus(1);
}

function round(diameterMm: Decimal): Decimal {
  return PI.times(diameterMm.pow(2)).div(4);
}

/** Between a face and a ball that stands on it, out to the radius a of the neck: πa²R − (2π/3)(R³ − (R² − a²)^{3/2}). */
function neck(radiusMm: Decimal, neckMm: Decimal, id: string): Decimal {
  if (neckMm.greaterThan(radiusMm))
    throw new EngineInputError(`${id}.neckRadiusMm`, neckMm.toString(), `at most the ball's radius, ${radiusMm.toString()} mm`);
  const below = radiusMm.pow(2).minus(neckMm.pow(2)).pow(1.5);
  return PI.times(neckMm.pow(2))
    .times(radiusMm)
    .minus(PI.times(2).div(3).times(radiusMm.pow(3).minus(below)));
}
