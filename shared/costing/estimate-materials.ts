import { Decimal, sum, ZERO } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { weigh } from '../forms/form-size.ts';
import { countOf } from '../forms/piece-weight.ts';
import { groupBy } from '../group-by.ts';
import type { EstimatePolicy, EstimateRequest, PricedMetal, PricedSolder } from './estimate-request.ts';
import { finder, fraction, physics, price, pricePerG } from './inputs.ts';
import { keptShare, paidShare, USUAL_SCRAP } from './scrap-share.ts';
import { bySolder, placeSolder, type PlacedJoint } from './solder-use.ts';
import type { Worksheet } from './worksheet.ts';

/** A part on the scale, all of its count together. */
export interface WeighedPart {
  id: string;
  metal: PricedMetal;
  netG: Decimal;
  areaCm2: Decimal;
}

/** Metal and solder of a piece: what they weigh, and a line for what each costs. */
export function costMaterials(sheet: Worksheet, { metals, solders, design, policy }: EstimateRequest): WeighedPart[] {
  const prices = new Map([...metals, ...solders].map((item) => [item.id, pricePerG(`${item.id}.price.amount`, item.price)]));
  for (const [id, perG] of prices) sheet.note(`price_per_g.${id}`, perG, 'money/g');

  const metalOf = finder(metals);
  const parts = design.parts.map((part) => weighPart(sheet, part, metalOf(part.metal, `${part.id}.metal`)));
  for (const [metal, own] of groupBy(parts, (part) => part.metal)) {
    costMetal(sheet, metal, { netG: sum(own.map(({ netG }) => netG)), perG: prices.get(metal.id)!, policy });
  }

  const placed = placeSolder(design, solders);
  for (const { joint, gapMm3, filletMm3, inJointG, placedG } of placed) {
    sheet.note(`joint.${joint.id}.clearance`, gapMm3, 'mm3');
    sheet.note(`joint.${joint.id}.fillet`, filletMm3, 'mm3');
    sheet.note(`joint.${joint.id}.solder_in_joint`, inJointG, 'g');
    sheet.note(`joint.${joint.id}.product_placed`, placedG, 'g');
  }
  for (const { solder, placedG } of bySolder(placed)) {
    sheet.note(`solder.${solder.id}.product`, placedG, 'g');
    const cost = sheet.money(`solder.${solder.id}.cost`, placedG.times(prices.get(solder.id)!));
    sheet.line('solder', `solder ${solder.id}`, cost);
  }
  noteFinished(sheet, parts, placed);
  return parts;
}

function weighPart(sheet: Worksheet, part: EstimateRequest['design']['parts'][number], metal: PricedMetal): WeighedPart {
  const count = countOf(part);
  const { volumeMm3, massG, areaMm2 } = weigh(part.form, metal.densityGPerCm3, part.id);
  sheet.note(`part.${part.id}.volume`, volumeMm3.times(count), 'mm3');
  return {
    id: part.id,
    metal,
    netG: sheet.note(`part.${part.id}.net`, massG.times(count), 'g'),
    areaCm2: sheet.note(`part.${part.id}.area`, areaMm2.times(count).div(100), 'cm2'),
  };
}

function costMetal(
  sheet: Worksheet,
  { id, fineness, clientsOwn }: PricedMetal,
  { netG, perG, policy }: { netG: Decimal; perG: Decimal; policy: EstimatePolicy },
): void {
  const offcut = physics('waste.offcutFraction', policy.waste.offcutFraction, { from: 0 });
  const filings = physics('waste.filingsFraction', policy.waste.filingsFraction, { from: 0 });
  const unrecovered = physics('waste.unrecoveredFraction', policy.waste.unrecoveredFraction, { from: 0 });
  sheet.note(`metal.${id}.net`, netG, 'g');
  const issuedG = netG.times(new Decimal(1).plus(offcut).plus(filings).plus(unrecovered));
  sheet.note(`metal.${id}.issued`, issuedG, 'g');
  const cost = sheet.money(`metal.${id}.cost`, issuedG.times(perG));
  sheet.line('metal', `metal ${id}`, cost);
  if (clientsOwn) {
    if (!perG.isZero()) throw new EngineInputError(`${id}.price.amount`, perG.toString(), "0: it is the client's own");
    const returnedG = sheet.note(
      `metal.${id}.returned`,
      netG.times(keptShare(policy.waste, policy.scrapCredit ?? USUAL_SCRAP)),
      'g',
    );
    sheet.note(`metal.${id}.lost`, issuedG.minus(netG).minus(returnedG), 'g');
  }
  // The scrap of what nobody paid for, such as a client's own metal, is not ours to credit.
  if (!policy.scrapCredit || perG.isZero()) return;
  const fineG = netG.times(paidShare(policy.waste, policy.scrapCredit)).times(fraction(`${id}.fineness`, fineness));
  const credit = sheet.money(`metal.${id}.scrap_credit`, fineG.times(price('finePricePerG', policy.finePricePerG)));
  sheet.line('scrap_credit', `scrap credit ${id}`, credit.negated());
}

/** Mass of the finished piece, and its fineness where the silver of every solder in it is known. */
function noteFinished(sheet: Worksheet, parts: readonly WeighedPart[], placed: readonly PlacedJoint<PricedSolder>[]): void {
  const finishedG = sum([...parts.map(({ netG }) => netG), ...placed.map(({ inJointG }) => inJointG)]);
  sheet.note('piece.finished_metal', finishedG, 'g');
  if (finishedG.isZero() || placed.length === 0 || placed.some(({ solder }) => solder.silverFraction === undefined)) return;
  const fineG = sum([
    ...parts.map(({ netG, metal }) => netG.times(metal.fineness)),
    ...placed.map(({ inJointG, solder }) => inJointG.times(solder.silverFraction ?? ZERO)),
  ]);
  sheet.note('piece.fineness', fineG.div(finishedG), '1');
}
