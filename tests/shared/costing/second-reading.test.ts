import { describe, expect, test } from 'vitest';
import type { EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import { estimate } from '../../../shared/costing/estimate.ts';
import reference from '../../reference/estimate-cases.json' with { type: 'json' };
import { harbourCup } from '../../support/harbour-cup.ts';
import { quoteByHand } from '../../support/quote-by-hand.ts';

const pendant = reference.cases[0]!.request as unknown as EstimateRequest;
const policy = (changes: Partial<EstimateRequest['policy']>): EstimateRequest => ({
  ...harbourCup,
  policy: { ...harbourCup.policy, ...changes },
});

// The reader itself is held to the worked quote first.
test('the second reading of the recipe gives the worked quote', () => {
  const { lines, totals } = reference.cases[0]!.expected;
  const found = quoteByHand(pendant);
  expect(found.lines).toEqual(lines.map(({ label, amountMinor }) => [label, amountMinor]));
  expect(found.totals).toEqual(totals);
});

/** Yen, with prices a hundred and sixty times those in euro: dearer, so that what is rounded is not all of it. */
function inYen(request: EstimateRequest, times: number): EstimateRequest {
  const dearer = (amount: string) => String(Math.round(Number(amount) * times * 1e6) / 1e6);
  const money = new Set([
    'amount',
    'pricePerG',
    'disposalPerBath',
    'cost',
    'finePricePerG',
    'bench',
    'overheadPerBenchHour',
    'consumablesPerBenchHour',
  ]);
  const changed = JSON.parse(
    JSON.stringify(request, (key, value: unknown) => (money.has(key) && typeof value === 'string' ? dearer(value) : value)),
  ) as EstimateRequest;
  return { ...changed, currency: 'JPY' };
}

describe.each([
  ['the cup', harbourCup],
  ['the cup, taxed by line', policy({ tax: { rateFraction: 0.19, method: 'per_line' } })],
  [
    'the cup, taxed on the total, by margin',
    policy({ tax: { rateFraction: 0.077, method: 'on_total' }, profit: { marginFraction: 0.42 } }),
  ],
  ['the cup, its scrap kept', policy({ scrapCredit: null })],
  ['the pendant in yen', inYen(pendant, 160)],
  ['the pendant in dinar', { ...pendant, currency: 'KWD' }],
  [
    'the pendant in silver of the client',
    {
      ...pendant,
      metals: pendant.metals.map((metal) => ({
        ...metal,
        price: { amount: '0', per: 'g' as const },
        clientsOwn: { handlingCharge: '7.35' },
      })),
    },
  ],
  [
    'a dozen pendants in a run',
    { ...pendant, labour: pendant.labour.map((line) => ({ ...line, setupMinutes: 4, run: { pieces: 12 } })) },
  ],
] as [string, EstimateRequest][])('%s', (_name, request) => {
  const found = estimate(request);
  const hand = quoteByHand(request);

  test('costs what it costs by hand, line by line', () => {
    expect(found.lines.map(({ label, amountMinor }) => [label, amountMinor])).toEqual(hand.lines);
    expect(found.totals).toEqual(hand.totals);
    for (const [key, grams] of Object.entries(hand.grams)) {
      const [what, id] = key.split(' ');
      const step = { issued: `metal.${id}.issued`, placed: `solder.${id}.product`, minutes: 'labour.minutes' }[what!];
      expect(Number(found.steps.find((one) => one.key === step)?.value), key).toBeCloseTo(grams, 9);
    }
  });

  test('is sold by lines that add up', () => {
    expect(found.sold.map(({ label, netMinor, taxMinor }) => [label, netMinor, taxMinor])).toEqual(hand.sold);
    expect(found.sold.reduce((sum, { netMinor }) => sum + netMinor, 0)).toBe(found.totals.netMinor);
  });
});

test('the second quote meets what the first does not', () => {
  const { sold, totals, steps } = estimate(harbourCup);
  expect(sold.map(({ kind }) => kind)).toEqual(['making', 'pass_through', 'pass_through', 'discount', 'rounding']);
  expect(totals.grossMinor % 500).toBe(0);
  expect(steps.filter(({ key }) => key.startsWith('gas.oxygen'))).toHaveLength(2);
});
