import type { EstimateRequest } from './estimate-request.ts';
import { placeSolder, type PlacedSolder } from './solder-use.ts';

/** More solder than so many times the gap asks for a fillet that shows. */
const MOST_OVER_GAP = 3;

/**
 * Joints whose solder is more than three times what their gap holds, though no fillet is asked for: a chip too large, or a gap or
 * fillet that was not noted.
 *
 * Metal placed over gap volume, V = m · φ / ρ; brazing people give 1.5 times the gap as the most.
 *
 * @returns a sentence a joint, in the order of the design
 * @throws {EngineInputError} as placeSolder()
 * @source practice of brazing: filler up to about 1.5 × the gap; 3 is where the question begins
 */
export function solderQuestions({
  design,
  solders,
}: {
  design: EstimateRequest['design'];
  solders: readonly PlacedSolder[];
}): string[] {
  return placeSolder(design, solders).flatMap(({ joint, solder, gapMm3, filletMm3, placedG }) => {
    if (!filletMm3.isZero() || gapMm3.isZero()) return [];
    const placedMm3 = placedG
      .times(solder.metalFraction ?? 1)
      .times(1000)
      .div(solder.densityGPerCm3!);
    const times = placedMm3.div(gapMm3);
    return times.greaterThan(MOST_OVER_GAP)
      ? [
          `${joint.id} gets ${times.toFixed(1)} times the solder that its gap holds, and no fillet: is the smallest piece so large?`,
        ]
      : [];
  });
}
