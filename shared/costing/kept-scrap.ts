import { Decimal, sum } from '../decimal.ts';
import { weigh } from '../forms/form-size.ts';
import { countOf } from '../forms/piece-weight.ts';
import { groupBy } from '../group-by.ts';
import { minorDigits } from './currency.ts';
import type { EstimateRequest } from './estimate-request.ts';
import { finder, price, pricePerG } from './inputs.ts';
import { paidShare, USUAL_SCRAP } from './scrap-share.ts';

export interface KeptScrap {
  metal: string;
  /** Fine metal that is likely to be paid for. */
  fineG: number;
  worthMinor: number;
}

/**
 * What the scrap of a piece is worth where the studio keeps it instead of crediting it: its own profit, in no line of the price.
 *
 * By metal in first use: Σ net · (o · kept_o · pay_o + f · kept_f · pay_f) · fineness · fine price, at the usual shares, each metal rounded
 * half-up to the minor unit. Metal that nobody paid for, such as a client's own, is not the studio's to keep.
 *
 * @returns nothing where scrap is credited
 * @throws {EngineInputError} for an unknown metal or currency, or a size or price that estimate() refuses
 * @source the shares are common practice, no published source
 */
export function keptScrap({ currency, metals, design, policy }: EstimateRequest): KeptScrap[] {
  if (policy.scrapCredit) return [];
  const unit = new Decimal(10).pow(minorDigits(currency));
  const share = paidShare(policy.waste, USUAL_SCRAP);
  const finePrice = price('finePricePerG', policy.finePricePerG);
  const metalOf = finder(metals);
  return [...groupBy(design.parts, (part) => part.metal)].flatMap(([id, parts]) => {
    const { densityGPerCm3, fineness, price: bought } = metalOf(id, 'metal');
    if (pricePerG(`${id}.price.amount`, bought).isZero()) return [];
    const netG = sum(parts.map((part) => weigh(part.form, densityGPerCm3, part.id).massG.times(countOf(part))));
    const fineG = netG.times(share).times(fineness);
    const worthMinor = fineG.times(finePrice).times(unit).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
    return [{ metal: id, fineG: fineG.toNumber(), worthMinor }];
  });
}
