/**
 * The costing recipe read a second time, from its formulas alone and in plain doubles, so that the engine has something to be
 * wrong against. It shares no line with the engine. Amounts of money are whole minor units here, rounded where the recipe says.
 */

import type { EstimateRequest, PassThrough, UnitPrice } from '../../shared/costing/estimate-request.ts';
import { gapAndFillet, volumeAndArea } from './geometry-by-hand.ts';

const DIGITS: Record<string, number> = { EUR: 2, JPY: 0, KWD: 3 };
// NIST Handbook 44 (2024), appendix C: 1 troy ounce = 31.103 476 8 g, 1 pennyweight = 1.555 173 84 g, both exact.
const GRAMS = { g: 1, dwt: 1.55517384, ozt: 31.1034768 };
const FUEL = {
  propane: [46.35, 3.628],
  butane: [45.7, 3.579],
  acetylene: [48.2, 3.072],
  methane: [50, 3.989],
  hydrogen: [120, 7.937],
} as const;
const ACID = { bisulphate: 2 * 120.06, sulphuric: 98.079, citric: (2 * 192.124) / 3 };

const perG = ({ amount, per }: UnitPrice) => Number(amount) / GRAMS[per];

export interface HandQuote {
  lines: [string, number][];
  sold: [string, number, number | null][];
  totals: Record<string, number>;
  grams: Record<string, number>;
}

export function quoteByHand(request: EstimateRequest): HandQuote {
  const scale = 10 ** DIGITS[request.currency]!;
  // Half-up; the hair is for the doubles, since no amount here is that near to a tie without being one.
  const minor = (amount: number) => Math.sign(amount) * Math.floor(Math.abs(amount) * scale + 0.5 + 1e-9) || 0;
  const { design, policy, metals, solders } = request;
  const lines: [string, number][] = [];
  const grams: Record<string, number> = {};

  const parts = new Map(
    design.parts.map((part) => {
      const metal = metals.find(({ id }) => id === part.metal)!;
      const { volumeMm3, areaMm2, massG } = volumeAndArea(part.form);
      const count = part.count ?? 1;
      const g = (massG ?? (volumeMm3! * metal.densityGPerCm3) / 1000) * count;
      return [part.id, { metal: part.metal, g, cm2: (areaMm2 * count) / 100 }] as const;
    }),
  );
  const { offcutFraction: o, filingsFraction: f, unrecoveredFraction: u } = policy.waste;
  for (const id of new Set([...parts.values()].map(({ metal }) => metal))) {
    const metal = metals.find((one) => one.id === id)!;
    const net = [...parts.values()].filter((part) => part.metal === id).reduce((total, part) => total + part.g, 0);
    grams[`issued ${id}`] = net * (1 + o + f + u);
    lines.push([`metal ${id}`, minor(grams[`issued ${id}`]! * perG(metal.price))]);
    const credit = policy.scrapCredit;
    if (!credit || Number(metal.price.amount) === 0) continue;
    const back =
      o * credit.offcutKeptFraction * credit.offcutPayFraction + f * credit.filingsKeptFraction * credit.filingsPayFraction;
    lines.push([`scrap credit ${id}`, -minor(net * back * Number(policy.finePricePerG) * metal.fineness) || 0]);
  }

  const placed = new Map<string, number>();
  for (const joint of design.joints) {
    const solder = solders.find(({ id }) => id === joint.solder)!;
    const inJoint = (gapAndFillet(joint) * solder.densityGPerCm3) / 1000;
    const wanted = (inJoint * (1 + (joint.trimFraction ?? 0.3))) / (solder.metalFraction ?? 1);
    const least = (joint.pieces ?? 1) * (solder.smallestPieceG ?? 0);
    placed.set(solder.id, (placed.get(solder.id) ?? 0) + Math.max(wanted, least) * (joint.count ?? 1));
  }
  for (const [id, g] of placed) {
    grams[`placed ${id}`] = g;
    lines.push([`solder ${id}`, minor(g * perG(solders.find((one) => one.id === id)!.price))]);
  }

  lines.push(...heatLines(request, parts, minor));

  const minutes = request.labour.map(({ role, minutes: first, factor = 1, setupMinutes = 0, run }) => {
    let all = first;
    if (run)
      all =
        first *
        Array.from({ length: run.pieces }, (_, k) => (k + 1) ** Math.log2(run.learningFraction ?? 0.85)).reduce((a, b) => a + b);
    return { role, min: (setupMinutes + all) * factor };
  });
  const total = minutes.reduce((sum, { min }) => sum + min, 0);
  for (const role of new Set(minutes.map((line) => line.role))) {
    const own = minutes.filter((line) => line.role === role).reduce((sum, { min }) => sum + min, 0);
    lines.push([`labour ${role}`, minor((own / 60) * Number(policy.ratesPerHour[role]))]);
  }
  lines.push(['overhead', minor((total / 60) * Number(policy.overheadPerBenchHour))]);
  lines.push(['consumables', minor((total / 60) * Number(policy.consumablesPerBenchHour))]);
  return { lines, grams: { ...grams, minutes: total }, ...priceByHand(request, lines, { scale, minor }) };
}

function heatLines(
  { heats, flux, pickle, gas }: EstimateRequest,
  parts: Map<string, { g: number; cm2: number }>,
  minor: (amount: number) => number,
): [string, number][] {
  const fires = heats.map((heat) => {
    const inFire = heat.parts.map((id) => parts.get(id)!);
    const cm2 = inFire.reduce((sum, part) => sum + part.cm2, 0);
    const g = inFire.reduce((sum, part) => sum + part.g, 0);
    const fluxG = flux ? cm2 * flux.gPerCm2 : 0;
    const cuo = pickle ? cm2 * pickle.oxideUm * 1e-4 * 6.31 : 0;
    const acid = pickle
      ? (cuo * ACID[pickle.acid]) / 79.545 +
        (fluxG * (flux?.boraxFraction ?? 0) * ACID[pickle.acid]) / 201.22 +
        ((cm2 * pickle.dragOutMlPerCm2) / 1000) * pickle.strengthGPerL
      : 0;
    const seconds = gas ? gas.fixedS + (g * gas.specificHeatJPerGK * (heat.peakC - 20)) / (gas.efficiency * gas.powerW) : 0;
    return { fluxG, copper: (cuo * 63.546) / 79.545, acid, fuel: gas ? (gas.powerW * seconds) / 1000 / FUEL[gas.fuel][0] : 0 };
  });
  const all = (what: 'fluxG' | 'copper' | 'acid' | 'fuel') => fires.reduce((sum, fire) => sum + fire[what], 0);
  const lines: [string, number][] = [];
  if (flux) lines.push(['flux', minor(all('fluxG') * Number(flux.pricePerG))]);
  if (pickle) {
    const grams = pickle.volumeL * pickle.strengthGPerL;
    const share = Math.max(
      all('copper') / (pickle.volumeL * pickle.copperLimitGPerL),
      all('acid') / (grams * pickle.usableAcidFraction),
    );
    lines.push(['pickle', minor(share * (grams * Number(pickle.pricePerG) + Number(pickle.disposalPerBath)))]);
  }
  if (gas) {
    lines.push(['gas', minor(all('fuel') * Number(gas.pricePerG))]);
    if (gas.oxygenPricePerG) lines.push(['oxygen', minor(all('fuel') * FUEL[gas.fuel][1] * Number(gas.oxygenPricePerG))]);
  }
  return lines;
}

function priceByHand(
  { metals, passThrough = [], policy }: EstimateRequest,
  lines: [string, number][],
  { scale, minor }: { scale: number; minor: (amount: number) => number },
): Pick<HandQuote, 'sold' | 'totals'> {
  const base = lines.reduce((sum, [, amount]) => sum + amount, 0);
  const contingency = minor((base / scale) * policy.contingencyFraction);
  const cost = base + contingency;
  const makingPrice = minor(
    'marginFraction' in policy.profit
      ? cost / scale / (1 - policy.profit.marginFraction)
      : (cost / scale) * (1 + policy.profit.markupFraction),
  );
  const bought = passThrough.map((item) => ({ id: item.id, handling: item.handlingFraction, cost: costOf(item) }));
  const sold: [string, number][] = [
    ['making', makingPrice],
    ...metals.flatMap(({ id, clientsOwn }): [string, number][] =>
      clientsOwn ? [[`handling of ${id}`, minor(Number(clientsOwn.handlingCharge))]] : [],
    ),
    ...bought.map((item): [string, number] => [item.id, minor(item.cost * (1 + item.handling))]),
  ];
  const before = sold.reduce((sum, [, amount]) => sum + amount, 0);
  const discount = minor((before / scale) * (policy.discountFraction ?? 0));
  if (discount > 0) sold.push(['discount', -discount]);
  let net = before - discount;
  const rate = policy.tax.rateFraction;
  const byLine = policy.tax.method === 'per_line';
  let taxed = sold.map(([id, amount]): [string, number, number | null] => [
    id,
    amount,
    byLine ? minor((amount / scale) * rate) : null,
  ]);
  let tax = byLine ? taxed.reduce((sum, [, , own]) => sum + own!, 0) : minor((net / scale) * rate);
  if (policy.tax.method === 'gross_rounded_up') {
    const step = policy.tax.roundUpToMinor ?? scale;
    const gross = Math.ceil((net + tax) / step) * step;
    const left = minor(gross / scale / (1 + rate));
    if (left !== net) taxed = [...taxed, ['rounding', left - net, null]];
    [net, tax] = [left, gross - left];
  }
  const gross = net + tax;
  const deposit = minor((gross / scale) * (policy.depositFraction ?? 0));
  const boughtMinor = bought.reduce((sum, item) => sum + minor(item.cost), 0);
  return {
    sold: taxed,
    totals: {
      baseMinor: base,
      contingencyMinor: contingency,
      makingCostMinor: cost,
      makingPriceMinor: makingPrice,
      netBeforeDiscountMinor: before,
      discountMinor: discount,
      netMinor: net,
      taxMinor: tax,
      grossMinor: gross,
      depositMinor: deposit,
      balanceMinor: gross - deposit,
      profitMinor: net - cost - boughtMinor,
    },
  };
}

function costOf(item: PassThrough): number {
  if (item.cost !== undefined) return Number(item.cost);
  const { fee, post, articles, perArticle = '0', partMarks = '0' } = item.packet;
  return (Number(fee) + Number(post)) / articles + Number(perArticle) + Number(partMarks);
}
