import * as fc from 'fast-check';
import { add, dinero, halfAwayFromZero, multiply, toSnapshot, transformScale } from 'dinero.js';
import { EUR, JPY, KWD } from 'dinero.js/currencies';
import { expect, test } from 'vitest';
import type { EstimateRequest, TaxMethod } from '../../../shared/costing/estimate-request.ts';
import { estimate } from '../../../shared/costing/estimate.ts';
import { marginOf, markupOf } from '../../../shared/costing/profit-shares.ts';
import { repriceMetal } from '../../../shared/costing/reprice-metal.ts';
import { harbourCup } from '../../support/harbour-cup.ts';

const CURRENCIES = { EUR, JPY, KWD };
const aCurrency = fc.constantFrom<keyof typeof CURRENCIES>('EUR', 'JPY', 'KWD');
const aMethod = fc.constantFrom<TaxMethod>('per_line', 'on_total', 'gross_rounded_up');
const aRate = fc.integer({ min: 0, max: 300 }).map((permille) => permille / 1000);
const anAmount = fc.integer({ min: 0, max: 5_000_000 }).map((micro) => (micro / 1e4).toFixed(4));

const aQuote = fc
  .record({
    currency: aCurrency,
    method: aMethod,
    rateFraction: aRate,
    discount: aRate,
    bench: anAmount,
    fine: anAmount,
    cases: anAmount,
  })
  .map(({ currency, method, rateFraction, discount, bench, fine, cases }): EstimateRequest => ({
    ...harbourCup,
    currency,
    passThrough: [{ id: 'case', kind: 'other', cost: cases, handlingFraction: 0.15 }],
    policy: {
      ...harbourCup.policy,
      finePricePerG: fine,
      ratesPerHour: { ...harbourCup.policy.ratesPerHour, bench },
      discountFraction: discount,
      tax: { rateFraction, method, roundUpToMinor: 10 },
    },
  }));

// A money library of general use adds and rounds the same: halves away from zero, in the minor units that ISO 4217 gives.
test('what is shown adds up to what is asked, as a general money library adds it', () => {
  fc.assert(
    fc.property(aQuote, (request) => {
      const { lines, sold, totals } = estimate(request);
      const currency = CURRENCIES[request.currency as keyof typeof CURRENCIES];
      const money = (amount: number) => dinero({ amount, currency });
      const total = (amounts: number[]) => toSnapshot(amounts.map(money).reduce(add, money(0))).amount;
      expect(total(lines.map(({ amountMinor }) => amountMinor))).toBe(totals.baseMinor);
      expect(total(sold.map(({ netMinor }) => netMinor))).toBe(totals.netMinor);
      expect(total([totals.netMinor, totals.taxMinor])).toBe(totals.grossMinor);
      expect(total([totals.depositMinor, totals.balanceMinor])).toBe(totals.grossMinor);
      const share = (amount: number, permille: number) => {
        const exact = multiply(money(amount), { amount: permille, scale: 3 });
        // That library knows a negative zero.
        return toSnapshot(transformScale(exact, currency.exponent, halfAwayFromZero)).amount + 0;
      };
      expect(totals.contingencyMinor).toBe(share(totals.baseMinor, 75));
      expect(totals.depositMinor).toBe(share(totals.grossMinor, 450));
      const permille = Math.round(request.policy.tax.rateFraction * 1000);
      if (request.policy.tax.method === 'per_line') {
        expect(sold.map(({ taxMinor }) => taxMinor)).toEqual(sold.map(({ netMinor }) => share(netMinor, permille)));
        expect(total(sold.map(({ taxMinor }) => taxMinor!))).toBe(totals.taxMinor);
      }
      if (request.policy.tax.method === 'on_total') expect(totals.taxMinor).toBe(share(totals.netMinor, permille));
      if (request.policy.tax.method === 'gross_rounded_up') expect(Math.abs(totals.grossMinor % 10)).toBe(0);
    }),
  );
});

/** Every amount that a request asks money for, and a place where it is dearer. */
const DEARER: ((request: EstimateRequest, by: string) => EstimateRequest)[] = [
  (request, amount) => ({ ...request, metals: request.metals.map((metal) => ({ ...metal, price: { amount, per: 'g' } })) }),
  (request, amount) => ({ ...request, solders: request.solders.map((solder) => ({ ...solder, price: { amount, per: 'g' } })) }),
  (request, pricePerG) => ({ ...request, flux: { ...request.flux!, pricePerG } }),
  (request, pricePerG) => ({ ...request, pickle: { ...request.pickle!, pricePerG } }),
  (request, disposalPerBath) => ({ ...request, pickle: { ...request.pickle!, disposalPerBath } }),
  (request, pricePerG) => ({ ...request, gas: { ...request.gas!, pricePerG } }),
  (request, oxygenPricePerG) => ({ ...request, gas: { ...request.gas!, oxygenPricePerG } }),
  (request, bench) => ({ ...request, policy: { ...request.policy, ratesPerHour: { ...request.policy.ratesPerHour, bench } } }),
  (request, overheadPerBenchHour) => ({ ...request, policy: { ...request.policy, overheadPerBenchHour } }),
  (request, consumablesPerBenchHour) => ({ ...request, policy: { ...request.policy, consumablesPerBenchHour } }),
  (request, cost) => ({ ...request, passThrough: [{ id: 'case', kind: 'other', cost, handlingFraction: 0.15 }] }),
  (request, fee) => ({
    ...request,
    passThrough: [{ id: 'mark', kind: 'hallmark', packet: { fee, post: '3', articles: 7 }, handlingFraction: 0.1 }],
  }),
];

test('raising any cost never lowers the price', () => {
  fc.assert(
    fc.property(
      aQuote,
      fc.constantFrom(...DEARER),
      fc.integer({ min: 0, max: 90_000 }),
      fc.integer({ min: 0, max: 9000 }),
      (request, withPrice, cents, more) => {
        const grossAt = (minor: number) => estimate(withPrice(request, (minor / 100).toFixed(2))).totals.grossMinor;
        expect(grossAt(cents + more)).toBeGreaterThanOrEqual(grossAt(cents));
      },
    ),
  );
});

const priced = (profit: EstimateRequest['policy']['profit']) =>
  estimate({ ...harbourCup, policy: { ...harbourCup.policy, profit } }).totals.makingPriceMinor;

// 40 % margin is 66.7 % markup; 40 % markup is 28.6 % margin.
test('margin and markup are each other, and both give the same price', () => {
  expect(markupOf(0.4)).toBeCloseTo(2 / 3, 12);
  expect(marginOf(0.4)).toBeCloseTo(2 / 7, 12);
  fc.assert(
    fc.property(fc.integer({ min: -500, max: 950 }), (permille) => {
      const marginFraction = permille / 1000;
      expect(marginOf(markupOf(marginFraction))).toBeCloseTo(marginFraction, 12);
      expect(Math.abs(priced({ marginFraction }) - priced({ markupFraction: markupOf(marginFraction) }))).toBeLessThanOrEqual(1);
    }),
  );
  expect(() => markupOf(1)).toThrow('marginFraction must be below 1');
  expect(() => marginOf(-1)).toThrow('markupFraction must be above -1');
});

// Silver at 925 that cost 1.42 while fine silver was 1.05 costs 1.42 + 0.20 · 0.925 = 1.605 at 1.25.
test('repriceMetal() moves the metal by the fine price, and changes nothing where that stays', () => {
  fc.assert(
    fc.property(aQuote, (request) => {
      const again = repriceMetal(request, request.policy.finePricePerG);
      expect(again).toEqual(request);
      expect(estimate(again)).toEqual(estimate(request));
    }),
  );
  const metals = [
    { id: 'a', densityGPerCm3: 10.36, fineness: 0.925, price: { amount: '1.42', per: 'g' as const } },
    { id: 'own', densityGPerCm3: 10.36, fineness: 0.925, price: { amount: '0', per: 'g' as const } },
    { id: 'cheap', densityGPerCm3: 10.36, fineness: 0.999, price: { amount: '0.10', per: 'g' as const } },
  ];
  const request = { ...harbourCup, metals, policy: { ...harbourCup.policy, finePricePerG: '1.05' } };
  expect(repriceMetal(request, '1.25').metals.map(({ price }) => price.amount)).toEqual(['1.605', '0', '0.2998']);
  // A price that would fall below nothing is nothing.
  expect(repriceMetal(request, '0.05').metals.map(({ price }) => price.amount)).toEqual(['0.495', '0', '0']);
});
