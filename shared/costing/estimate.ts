import { minorDigits } from './currency.ts';
import { costHeats } from './estimate-heats.ts';
import { costMaterials } from './estimate-materials.ts';
import { costLabour } from './estimate-labour.ts';
import { priceWork } from './estimate-price.ts';
import type { Estimate, EstimateRequest } from './estimate-request.ts';
import { Worksheet } from './worksheet.ts';

/**
 * What a piece costs and what it is sold for, by quote recipe 1.
 *
 * Lines: metal and its scrap credit (negative) by metal in first use, solder by product in first use, flux, pickle, gas
 * (bought oxygen a line of its own), labour by role, overhead, consumables. Each is rounded half-up to the minor unit of the
 * currency, then they are added; contingency, profit, what passes through, discount, tax and deposit follow. All arithmetic
 * is decimal. The recipe is frozen: its formulas and constants never change, a better one has another number.
 *
 * @returns what it costs by line, what is sold by line, and totals, in minor units; and every number of the working in order, under a key
 * @throws {EngineInputError} for an unknown currency, metal, solder, joint, part or role, a number out of its bounds, or a
 *   price that is no decimal
 * @source geometry, stoichiometry and elementary calorimetry; waste, trim and minutes are the studio's own
 */
export function estimate(request: EstimateRequest): Estimate {
  const sheet = new Worksheet(minorDigits(request.currency));
  const parts = costMaterials(sheet, request);
  costHeats(sheet, parts, request);
  costLabour(sheet, request);
  const { totals, sold } = priceWork(sheet, request);
  return { recipe: 1, currency: request.currency, lines: sheet.lines, sold, totals, steps: sheet.steps };
}
