import type { Design } from '../../../../shared/design/design.ts';
import type { Plan } from '../../../../shared/design/plan.ts';
import type { Solder } from '../../../../shared/design/solder.ts';

/**
 * The melting window of a joint that is made: that of its own solder, raised by what the bench says a made joint gains.
 *
 * The margins of the check say it where neither plan nor design does: a joint of unknown solder counts as what was assumed of it.
 */
export function windowOf(
  joint: string,
  { design, solders, plan, riseK }: { design: Design; solders: readonly Solder[]; plan: Plan; riseK: number },
  { peakC, solidMarginK, runMarginK }: { peakC: number; solidMarginK: number; runMarginK: number },
): { solidusC: number; liquidusC: number } {
  const made = design.joints.find(({ id }) => id === joint)?.made?.solder;
  const named = plan.heats.find(({ joints }) => joints.includes(joint))?.solder;
  const solder = typeof made === 'object' ? made : solders.find(({ id }) => id === named);
  if (solder) return { solidusC: solder.solidusC + riseK, liquidusC: solder.liquidusC + riseK };
  return { solidusC: peakC + solidMarginK, liquidusC: peakC + runMarginK };
}
