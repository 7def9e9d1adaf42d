import { Decimal, sum, ZERO } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';
import type { EstimatePolicy, EstimateRequest, EstimateTotals, PassThrough, SoldKind, SoldLine } from './estimate-request.ts';
import { fraction, physics, price } from './inputs.ts';
import { packetShare } from './packet-share.ts';
import type { Worksheet } from './worksheet.ts';

const ONE = new Decimal(1);

/** A line as the client is charged it, before discount and tax. */
interface Sold {
  id: string;
  kind: SoldKind;
  price: Decimal;
}

/** From the lines to the price: contingency, profit, what passes through, discount, tax, deposit; and the lines that are shown. */
export function priceWork(sheet: Worksheet, request: EstimateRequest): { totals: EstimateTotals; sold: SoldLine[] } {
  const { policy } = request;
  const unit = new Decimal(10).pow(sheet.minorDigits);
  const base = sheet.money('making.base', sum(sheet.lines.map(({ amountMinor }) => new Decimal(amountMinor).div(unit))));
  const contingency = sheet.money(
    'making.contingency',
    base.times(physics('contingencyFraction', policy.contingencyFraction, { from: 0 })),
  );
  const makingCost = sheet.money('making.cost', base.plus(contingency));
  const making: Sold = {
    id: 'making',
    kind: 'making',
    price: sheet.money('making.price', withProfit(makingCost, policy.profit)),
  };
  const handling = handlingOf(sheet, request);
  const passed = (request.passThrough ?? []).map((item) => passOn(sheet, item));

  const sold: Sold[] = [making, ...handling, ...passed];
  const before = sheet.money('net.before_discount', sum(sold.map((line) => line.price)));
  const discount = sheet.money('net.discount', before.times(fraction('discountFraction', policy.discountFraction ?? 0)));
  const discounted = discount.isZero() ? [] : [{ id: 'discount', kind: 'discount' as const, price: discount.negated() }];
  const { shown, net, tax } = taxed(sheet, { sold: [...sold, ...discounted], net: before.minus(discount), policy });
  sheet.money('net.price', net);
  sheet.money('tax.total', tax);
  const gross = sheet.money('gross.price', net.plus(tax));
  const deposit = sheet.money('deposit', gross.times(fraction('depositFraction', policy.depositFraction ?? 0)));
  const balance = sheet.money('balance', gross.minus(deposit));

  const totalCost = sheet.money('check.total_cost', sum([makingCost, ...passed.map((item) => item.cost)]));
  const profit = sheet.money('check.profit', net.minus(totalCost));
  if (!net.isZero()) sheet.note('check.margin', profit.div(net), '1');
  if (!totalCost.isZero()) sheet.note('check.markup', profit.div(totalCost), '1');
  const totals = {
    baseMinor: sheet.minor(base),
    contingencyMinor: sheet.minor(contingency),
    makingCostMinor: sheet.minor(makingCost),
    makingPriceMinor: sheet.minor(making.price),
    netBeforeDiscountMinor: sheet.minor(before),
    discountMinor: sheet.minor(discount),
    netMinor: sheet.minor(net),
    taxMinor: sheet.minor(tax),
    grossMinor: sheet.minor(gross),
    depositMinor: sheet.minor(deposit),
    balanceMinor: sheet.minor(balance),
    profitMinor: sheet.minor(profit),
  };
  return { totals, sold: shown };
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

/** A client's own metal costs us nothing; that it is weighed, kept apart and given back is charged. */
function handlingOf(sheet: Worksheet, { metals, design }: EstimateRequest): Sold[] {
  const used = new Set(design.parts.map(({ metal }) => metal));
  return metals.flatMap(({ id, clientsOwn }) => {
    if (!clientsOwn || !used.has(id)) return [];
    const charge = sheet.money(`handling.${id}.price`, price(`${id}.handlingCharge`, clientsOwn.handlingCharge));
    return [{ id: `handling of ${id}`, kind: 'handling' as const, price: charge }];
  });
}

/** At cost and its own handling, neither contingency nor profit. Priced from what was typed, not from its rounded cost. */
function passOn(sheet: Worksheet, item: PassThrough): Sold & { cost: Decimal } {
  const { id, handlingFraction } = item;
  const exact = item.packet ? packetShare(item.packet) : price(`${id}.cost`, item.cost);
  const cost = sheet.money(`pass.${id}.cost`, exact);
  const handling = physics(`${id}.handlingFraction`, handlingFraction, { from: 0 });
  return { id, kind: 'pass_through', cost, price: sheet.money(`pass.${id}.price`, exact.times(ONE.plus(handling))) };
}

/**
 * Tax by the method of the studio. per_line: each line by itself, the discount with a negative tax of its own. on_total: once.
 * gross_rounded_up: the gross, taxed on the total, goes up to the next step, the net is what remains without tax, and tax is
 * the rest; what that adds to the net is a line, so that lines add up.
 */
function taxed(
  sheet: Worksheet,
  { sold, net, policy }: { sold: Sold[]; net: Decimal; policy: EstimatePolicy },
): { shown: SoldLine[]; net: Decimal; tax: Decimal } {
  const rate = physics('tax.rateFraction', policy.tax.rateFraction, { from: 0 });
  const show = ({ id, kind, price: amount }: Sold, tax: Decimal | null): SoldLine => ({
    kind,
    label: id,
    netMinor: sheet.minor(amount),
    taxMinor: tax && sheet.minor(tax),
  });
  if (policy.tax.method === 'per_line') {
    const taxes = sold.map((line) => sheet.money(`tax.${line.id}`, line.price.times(rate)));
    return { shown: sold.map((line, index) => show(line, taxes[index]!)), net, tax: sum(taxes) };
  }
  const shown = sold.map((line) => show(line, null));
  const tax = sheet.round(net.times(rate));
  if (policy.tax.method === 'on_total') return { shown, net, tax };
  const unit = new Decimal(10).pow(sheet.minorDigits);
  const { roundUpToMinor = unit.toNumber() } = policy.tax;
  if (!(Number.isSafeInteger(roundUpToMinor) && roundUpToMinor >= 1))
    throw new EngineInputError('tax.roundUpToMinor', roundUpToMinor, 'a whole number from 1');
  const step = new Decimal(roundUpToMinor).div(unit);
  const gross = net.plus(tax).div(step).ceil().times(step);
  const without = sheet.round(gross.div(ONE.plus(rate)));
  const rounding: Sold = { id: 'rounding', kind: 'rounding', price: without.minus(net) };
  const added = rounding.price.equals(ZERO) ? [] : [show(rounding, null)];
  return { shown: [...shown, ...added], net: without, tax: gross.minus(without) };
}
