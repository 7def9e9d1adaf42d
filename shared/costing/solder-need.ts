import type { Design } from '../design/design.ts';
import type { Solder } from '../design/solder.ts';
import { placeSolder } from './solder-use.ts';

/**
 * Grams of a solder that a joint of an expanded design takes, for planning with what is in the drawer.
 *
 * 0 for a solder of which any amount may be used. One without a density is taken at 9.97 g/cm³: hard solder of 75 % Ag, 22 % Cu,
 * 3 % Zn by the rule of mixtures. Of the usual grades only eutectic and extra hard are denser, by 0.6 % at most.
 *
 * @throws {EngineInputError} as placeSolder()
 */
export function solderNeedG(design: Design, solders: readonly Solder[]): (joint: string, solder: string) => number {
  return (jointId, solderId) => {
    const solder = solders.find(({ id }) => id === solderId);
    const joint = design.joints.find(({ id }) => id === jointId);
    if (!joint || solder?.availableG === undefined) return 0;
    const { made: _, ...open } = joint;
    const weighed = { ...solder, densityGPerCm3: solder.densityGPerCm3 ?? USUAL_DENSITY_G_PER_CM3 };
    return placeSolder({ parts: design.parts, joints: [{ ...open, solder: solderId }] }, [weighed])[0]!.placedG.toNumber();
  };
}

const USUAL_DENSITY_G_PER_CM3 = 9.97;
