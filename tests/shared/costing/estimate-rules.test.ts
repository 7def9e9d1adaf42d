import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Acid, EstimateRequest, PassThrough, TaxMethod } from '../../../shared/costing/estimate-request.ts';
import { estimate } from '../../../shared/costing/estimate.ts';
import { anEstimateRequest } from '../../support/an-estimate-request.ts';

const step = (request: EstimateRequest, key: string) => estimate(request).steps.find((one) => one.key === key)?.value;
const bench = (amount: string) => ({ ratesPerHour: { bench: amount } });

// A margin of 40 % of the price is a markup of 66.7 % of the cost: 197.80 becomes 329.67, with a markup of 40 % 276.92.
test.each([
  [{ marginFraction: 0.4 }, 32967],
  [{ markupFraction: 0.4 }, 27692],
  [{ marginFraction: -0.25 }, 15824],
])('estimate() with %j', (profit, makingPriceMinor) => {
  expect(estimate(anEstimateRequest({ policy: { ...bench('197.80'), profit } })).totals).toMatchObject({ makingPriceMinor });
});

// Halves go away from zero; 1.005 has no exact binary form and would go down as a double.
test.each([
  ['EUR', '0.125', 13],
  ['EUR', '1.005', 101],
  ['EUR', '1.0049999', 100],
  ['JPY', '149.5', 150],
  ['KWD', '1.2345', 1235],
])('estimate() in %s rounds %s half-up', (currency, amount, baseMinor) => {
  expect(estimate(anEstimateRequest({ currency, policy: bench(amount) })).totals.baseMinor).toBe(baseMinor);
});

// Three lines of 9.99 at 20 %: 1.998 each, so 6.00 by line; 5.994 of 29.97, so 5.99 on the total.
// Up to the next 5.00 the gross 35.96 is 40.00, of which 33.33 is net.
const three = ['a', 'b', 'c'].map((id): PassThrough => ({ id, kind: 'finding', cost: '9.99', handlingFraction: 0 }));
test.each([
  [{ method: 'per_line' }, { netMinor: 2997, taxMinor: 600, grossMinor: 3597 }],
  [{ method: 'on_total' }, { netMinor: 2997, taxMinor: 599, grossMinor: 3596 }],
  [
    { method: 'gross_rounded_up', roundUpToMinor: 500 },
    { netMinor: 3333, taxMinor: 667, grossMinor: 4000 },
  ],
  [{ method: 'gross_rounded_up' }, { netMinor: 3000, taxMinor: 600, grossMinor: 3600 }],
] as const)('estimate() taxes by %j', (tax, totals) => {
  const request = anEstimateRequest({ labour: [], passThrough: three, policy: { tax: { rateFraction: 0.2, ...tax } } });
  expect(estimate(request).totals).toMatchObject(totals);
});

// 25 % handling on 14.50 is 18.125, a tie; 10 % off 118.13 is 11.813.
test('estimate() passes through with handling, and takes the discount off the whole', () => {
  const passThrough = [{ id: 'chain', kind: 'finding', cost: '14.50', handlingFraction: 0.25 }];
  const { totals } = estimate(anEstimateRequest({ passThrough, policy: { discountFraction: 0.1, depositFraction: 0.5 } }));
  expect(totals).toMatchObject({
    makingPriceMinor: 10_000,
    netBeforeDiscountMinor: 11_813,
    discountMinor: 1181,
    netMinor: 10_632,
  });
  expect(totals).toMatchObject({ depositMinor: 5316, balanceMinor: 5316, profitMinor: 10_632 - 10_000 - 1450 });
});

test('estimate() applies the learned factor to minutes, and to what goes with them', () => {
  const labour = [{ operation: 'sawing', role: 'bench', minutes: 60, factor: 1.25 }];
  const request = anEstimateRequest({ labour, policy: { overheadPerBenchHour: '16.00', consumablesPerBenchHour: '2.50' } });
  expect(estimate(request).lines).toEqual([
    { group: 'labour', label: 'labour bench', amountMinor: 12_500 },
    { group: 'overhead', label: 'overhead', amountMinor: 2000 },
    { group: 'consumables', label: 'consumables', amountMinor: 313 },
  ]);
});

// 1 cm³ of sterling: 10.36 g. 46.00 a troy ounce is 1.478934 a gram.
const cube: Partial<EstimateRequest> = {
  metals: [{ id: 'bar', densityGPerCm3: 10.36, fineness: 0.925, price: { amount: '46.00', per: 'ozt' } }],
  design: {
    parts: [{ id: 'cube', metal: 'bar', form: { kind: 'bar', lengthMm: 10, widthMm: 10, thicknessMm: 10 } }],
    joints: [],
  },
  labour: [],
};
const credit = { offcutKeptFraction: 1, offcutPayFraction: 0.5, filingsKeptFraction: 1, filingsPayFraction: 1 };
const waste = { offcutFraction: 0.2, filingsFraction: 0.1, unrecoveredFraction: 0.05 };

test('estimate() prices metal by the troy ounce, and credits its scrap', () => {
  const request = anEstimateRequest({ ...cube, policy: { waste, scrapCredit: credit } });
  expect(step(request, 'price_per_g.bar')).toBeCloseTo(1.478934, 6);
  expect(step(request, 'metal.bar.issued')).toBeCloseTo(10.36 * 1.35, 12);
  // 13.986 g · 1.4789343 = 20.684; 10.36 · (0.2 · 0.5 + 0.1) · 0.925 = 1.9166 of fine silver at 1.00
  expect(estimate(request).lines.slice(0, 2)).toEqual([
    { group: 'metal', label: 'metal bar', amountMinor: 2068 },
    { group: 'scrap_credit', label: 'scrap credit bar', amountMinor: -192 },
  ]);
});

test('estimate() of a client’s own metal tracks its grams, costs nothing and credits no scrap', () => {
  const metals = [{ ...cube.metals![0]!, price: { amount: '0', per: 'g' as const } }];
  const request = anEstimateRequest({ ...cube, metals, policy: { waste, scrapCredit: credit } });
  expect(estimate(request).lines.filter(({ group }) => group !== 'overhead' && group !== 'consumables')).toEqual([
    { group: 'metal', label: 'metal bar', amountMinor: 0 },
  ]);
  expect(step(request, 'metal.bar.issued')).toBeCloseTo(13.986, 9);
});

const heated: Partial<EstimateRequest> = { ...cube, heats: [{ joints: [], parts: ['cube'], peakC: 720 }] };
const gas = { fuel: 'propane', powerW: 1500, efficiency: 0.1, fixedS: 0, specificHeatJPerGK: 0.245, pricePerG: '0.01' } as const;

// Complete combustion: C₃H₈ + 5 O₂, 160/44.1 = 3.63 g; C₂H₂ + 2.5 O₂, 3.07; 2 H₂ + O₂, 7.94; CH₄ + 2 O₂, 3.99; C₄H₁₀ + 6.5 O₂, 3.58.
test.each([
  ['propane', 46.35, 3.628],
  ['butane', 45.7, 3.579],
  ['acetylene', 48.2, 3.072],
  ['methane', 50, 3.989],
  ['hydrogen', 120, 7.937],
] as const)('estimate() burns %s, and buys its oxygen', (fuel, heatKJPerG, oxygenGPerG) => {
  const request = anEstimateRequest({ ...heated, gas: { ...gas, fuel, oxygenPricePerG: '0.02' } });
  const heatJ = (10.36 * 0.245 * 700) / 0.1;
  expect(step(request, 'gas.fuel')).toBeCloseTo(heatJ / 1000 / heatKJPerG, 9);
  expect(step(request, 'gas.oxygen')).toBeCloseTo((heatJ / 1000 / heatKJPerG) * oxygenGPerG, 9);
  expect(estimate(request).lines.map(({ label }) => label)).toEqual(['metal bar', 'gas', 'oxygen', 'overhead', 'consumables']);
});

const pickle = {
  volumeL: 1,
  strengthGPerL: 100,
  oxideUm: 10,
  dragOutMlPerCm2: 0,
  copperLimitGPerL: 10,
  usableAcidFraction: 0.6,
  pricePerG: '1',
  disposalPerBath: '0',
};
// Grams of acid for a gram of CuO, from the molar masses: 3.019, 1.233 and 1.610 (to 3 decimals; other atomic weights move the 4th).
test.each([
  ['bisulphate', 3.019],
  ['sulphuric', 1.233],
  ['citric', 1.61],
] as [Acid, number][])('estimate() uses %s up by the equation', (acid, gPerG) => {
  const request = anEstimateRequest({ ...heated, pickle: { ...pickle, acid } });
  // 6 cm² without the ends are 4 · 1 cm²; 10 µm of CuO at 6.31 g/cm³.
  expect(step(request, 'heat.H1.cuo')).toBeCloseTo(4 * 1e-3 * 6.31, 12);
  expect(Number(step(request, 'pickle.acid')) / (4 * 1e-3 * 6.31)).toBeCloseTo(gPerG, 3);
  expect(Number(step(request, 'pickle.copper')) / (4 * 1e-3 * 6.31)).toBeCloseTo(0.799, 3);
});

describe('whatever is asked', () => {
  const aMethod = fc.constantFrom<TaxMethod>('per_line', 'on_total', 'gross_rounded_up');
  const aShare = fc.integer({ min: 0, max: 90 }).map((percent) => percent / 100);
  const aCost = fc.integer({ min: 0, max: 99_999 }).map((minor) => (minor / 100).toFixed(2));

  test('lines add up to the base, and totals to each other', () => {
    fc.assert(
      fc.property(
        aMethod,
        aShare,
        aShare,
        aShare,
        aCost,
        fc.array(aCost, { maxLength: 4 }),
        (method, rateFraction, discountFraction, depositFraction, rate, costs) => {
          const passThrough = costs.map((cost, index): PassThrough => ({
            id: `p${index}`,
            kind: 'stone',
            cost,
            handlingFraction: 0.15,
          }));
          const policy = {
            ...bench(rate),
            contingencyFraction: 0.05,
            profit: { marginFraction: 0.4 },
            discountFraction,
            depositFraction,
            tax: { rateFraction, method },
          };
          const { lines, totals } = estimate(
            anEstimateRequest({ ...cube, labour: [{ operation: 'saw', role: 'bench', minutes: 77 }], passThrough, policy }),
          );
          expect(totals.baseMinor).toBe(lines.reduce((total, { amountMinor }) => total + amountMinor, 0));
          expect(totals.makingCostMinor).toBe(totals.baseMinor + totals.contingencyMinor);
          expect(totals.grossMinor).toBe(totals.netMinor + totals.taxMinor);
          expect(totals.grossMinor).toBe(totals.depositMinor + totals.balanceMinor);
          if (method === 'gross_rounded_up') expect(totals.grossMinor % 100).toBe(0);
          else expect(totals.netMinor).toBe(totals.netBeforeDiscountMinor - totals.discountMinor);
          expect(Object.is(totals.discountMinor, -0)).toBe(false);
        },
      ),
    );
  });
});

test.each([
  [{ currency: 'XAG' }, 'currency must be a currency code of ISO 4217, such as EUR; it is XAG'],
  [{ labour: [{ operation: 'sawing', role: 'desk', minutes: 1 }] }, 'role must be one with a rate: bench; it is desk'],
  [
    { labour: [{ operation: 'sawing', role: 'constructor', minutes: 1 }] },
    'role must be one with a rate: bench; it is constructor',
  ],
  [{ labour: [{ operation: 'sawing', role: 'bench', minutes: -1 }] }, 'sawing.minutes must be at least 0; it is -1'],
  [{ policy: { profit: { marginFraction: 1 } } }, 'marginFraction must be below 1: it is a share of the price; it is 1'],
  [{ policy: bench('24,00') }, 'ratesPerHour.bench must be a decimal such as "1.42", 0 or more; it is 24,00'],
  [{ ...cube, metals: [] }, 'cube.metal must be one of ; it is bar'],
  [{ ...heated, gas: { ...gas, efficiency: 0 } }, 'gas.efficiency must be above 0, at most 1; it is 0'],
  [{ ...heated, heats: [{ joints: [], parts: ['lid'], peakC: 700 }] }, 'heat 1 part must be one of cube; it is lid'],
] as [Parameters<typeof anEstimateRequest>[0], string][])('estimate() refuses %#', (changes, message) => {
  expect(() => estimate(anEstimateRequest(changes))).toThrow(message);
});
