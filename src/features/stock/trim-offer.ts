import type { z } from 'zod';
import { trimFromUse, type CountDifference } from '../../../shared/stock/count-difference.ts';
import { learnedTrim, type Settings } from '../settings/index.ts';
import type { TrimOffer } from './stocktakes.schema.ts';

/** What plans count on where the studio has learned nothing: placed over what stays in the joints. */
const USUAL_TRIM_FRACTION = 0.3;

/** What a count says of the trim that plans count on, where that is more than a scale or a crumb explains; else null. */
export function trimOffer(
  { solderTrims }: Settings,
  product: { id: string; code: string; name: string },
  { withinTolerance, ratio, trueUseG, usedG }: CountDifference & { usedG: number },
): z.infer<typeof TrimOffer> | null {
  if (withinTolerance || ratio === null || ratio <= 0) return null;
  const { id: productId, code, name } = product;
  const trimFraction = learnedTrim(solderTrims, code) ?? USUAL_TRIM_FRACTION;
  const offeredTrimFraction = Number(trimFromUse(trimFraction, ratio).toFixed(3));
  return {
    productId,
    product: name,
    usedG,
    trueUseG,
    ratio: Number(ratio.toFixed(4)),
    trimFraction,
    offeredTrimFraction,
    says: `${trueUseG} g of ${name} were really used against ${usedG} g planned: a trim of ${offeredTrimFraction} would have planned it.`,
    takeUp: { method: 'PATCH', path: '/api/v1/settings', body: { solderTrims: { [code]: offeredTrimFraction } } },
  };
}
