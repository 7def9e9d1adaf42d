import { Decimal, sum } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { groupBy } from '../group-by.ts';
import type { EstimatePolicy, EstimateRequest, EstimateTotals } from './estimate-request.ts';
import { fraction, physics, price } from './inputs.ts';
import type { Worksheet } from './worksheet.ts';

const ONE = new Decimal(1);

/** Labour by role, and what every hour at the bench carries with it. */
export function costLabour(sheet: Worksheet, { labour, policy }: EstimateRequest): void {
  const work = labour.map(({ operation, role, minutes, factor = 1 }) => {
    const planned = physics(`${operation}.minutes`, minutes, { from: 0 }).times(
      physics(`${operation}.factor`, factor, { above: 0 }),
    );
    return { role, minutes: sheet.note(`labour.${operation}.minutes`, planned, 'min') };
  });
  for (const [role, own] of groupBy(work, (line) => line.role)) {
    const rate = Object.hasOwn(policy.ratesPerHour, role) ? policy.ratesPerHour[role] : undefined;
    if (rate === undefined)
      throw new EngineInputError('role', role, `one with a rate: ${Object.keys(policy.ratesPerHour).join(', ')}`);
    const minutes = sheet.note(`labour.${role}.minutes`, sum(own.map((line) => line.minutes)), 'min');
    const cost = sheet.money(`labour.${role}.cost`, minutes.div(60).times(price(`ratesPerHour.${role}`, rate)));
    sheet.line('labour', `labour ${role}`, cost);
  }
  const minutes = sheet.note('labour.minutes', sum(work.map((line) => line.minutes)), 'min');
  const overhead = minutes.div(60).times(price('overheadPerBenchHour', policy.overheadPerBenchHour));
  sheet.line('overhead', 'overhead', sheet.money('overhead.cost', overhead));
  const consumables = minutes.div(60).times(price('consumablesPerBenchHour', policy.consumablesPerBenchHour));
  sheet.line('consumables', 'consumables', sheet.money('consumables.cost', consumables));
}

/** From the lines to the price: contingency, profit, what passes through, discount, tax, deposit. */
export function priceWork(sheet: Worksheet, { passThrough = [], policy }: EstimateRequest): EstimateTotals {
  const unit = new Decimal(10).pow(sheet.minorDigits);
  const base = sheet.money('making.base', sum(sheet.lines.map(({ amountMinor }) => new Decimal(amountMinor).div(unit))));
  const contingency = sheet.money(
    'making.contingency',
    base.times(physics('contingencyFraction', policy.contingencyFraction, { from: 0 })),
  );
  const makingCost = sheet.money('making.cost', base.plus(contingency));
  const makingPrice = sheet.money('making.price', withProfit(makingCost, policy.profit));

  const passed = passThrough.map(({ id, cost, handlingFraction }) => {
    const paid = sheet.money(`pass.${id}.cost`, price(`${id}.cost`, cost));
    const handling = physics(`${id}.handlingFraction`, handlingFraction, { from: 0 });
    // Priced from what was typed, not from its rounded cost.
    return { id, cost: paid, price: sheet.money(`pass.${id}.price`, price(`${id}.cost`, cost).times(ONE.plus(handling))) };
  });

  const before = sheet.money('net.before_discount', sum([makingPrice, ...passed.map((item) => item.price)]));
  const discountShare = fraction('discountFraction', policy.discountFraction ?? 0);
  const discount = sheet.money('net.discount', before.times(discountShare));
  const sold = [{ id: 'making', price: makingPrice }, ...passed];
  const { net, tax } = taxOf(sheet, { sold, discountShare, net: before.minus(discount), policy });
  sheet.money('net.price', net);
  sheet.money('tax.total', tax);
  const gross = sheet.money('gross.price', net.plus(tax));
  const deposit = sheet.money('deposit', gross.times(fraction('depositFraction', policy.depositFraction ?? 0)));
  const balance = sheet.money('balance', gross.minus(deposit));

  const totalCost = sheet.money('check.total_cost', sum([makingCost, ...passed.map((item) => item.cost)]));
  const profit = sheet.money('check.profit', net.minus(totalCost));
  if (!net.isZero()) sheet.note('check.margin', profit.div(net), '1');
  if (!totalCost.isZero()) sheet.note('check.markup', profit.div(totalCost), '1');
  return {
    baseMinor: sheet.minor(base),
    contingencyMinor: sheet.minor(contingency),
    makingCostMinor: sheet.minor(makingCost),
    makingPriceMinor: sheet.minor(makingPrice),
    netBeforeDiscountMinor: sheet.minor(before),
    discountMinor: sheet.minor(discount),
    netMinor: sheet.minor(net),
    taxMinor: sheet.minor(tax),
    grossMinor: sheet.minor(gross),
    depositMinor: sheet.minor(deposit),
    balanceMinor: sheet.minor(balance),
    profitMinor: sheet.minor(profit),
  };
}

function withProfit(cost: Decimal, profit: EstimatePolicy['profit']): Decimal {
  if ('marginFraction' in profit) {
    if ('markupFraction' in profit) throw new EngineInputError('profit', 'both', 'either a margin or a markup');
    if (!(profit.marginFraction < 1))
      throw new EngineInputError('marginFraction', profit.marginFraction, 'below 1: it is a share of the price');
    return cost.div(ONE.minus(physics('marginFraction', profit.marginFraction)));
  }
  return cost.times(ONE.plus(physics('markupFraction', profit.markupFraction, { above: -1 })));
}

/**
 * Tax by the method of the studio. per_line: each line by itself, its discount taken off. on_total: once. gross_rounded_up:
 * the gross, taxed on the total, goes up to the next step, the net is what remains without tax, and tax is the rest.
 */
function taxOf(
  sheet: Worksheet,
  {
    sold,
    discountShare,
    net,
    policy,
  }: { sold: { id: string; price: Decimal }[]; discountShare: Decimal; net: Decimal; policy: EstimatePolicy },
): { net: Decimal; tax: Decimal } {
  const rate = physics('tax.rateFraction', policy.tax.rateFraction, { from: 0 });
  if (policy.tax.method === 'per_line') {
    const taxes = sold.map((line) => sheet.money(`tax.${line.id}`, line.price.times(ONE.minus(discountShare)).times(rate)));
    return { net, tax: sum(taxes) };
  }
  const tax = sheet.round(net.times(rate));
  if (policy.tax.method === 'on_total') return { net, tax };
  const unit = new Decimal(10).pow(sheet.minorDigits);
  const { roundUpToMinor = unit.toNumber() } = policy.tax;
  if (!(Number.isSafeInteger(roundUpToMinor) && roundUpToMinor >= 1))
    throw new EngineInputError('tax.roundUpToMinor', roundUpToMinor, 'a whole number from 1');
  const step = new Decimal(roundUpToMinor).div(unit);
  const gross = net.plus(tax).div(step).ceil().times(step);
  const without = sheet.round(gross.div(ONE.plus(rate)));
  return { net: without, tax: gross.minus(without) };
}
