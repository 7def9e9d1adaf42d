import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { costLedger, type CostMethod, type StockEvent } from '../../../shared/stock/cost-ledger.ts';

// Three deliveries, 20 g at 1.70, 30 g at 1.95, 25 g at 2.10, with 12.5, 25 and 18.4 g taken after each; 145.00 was paid.
// Worked by hand, as in issue-costs.test.ts: the two methods that IAS 2 allows.
const EVENTS: StockEvent[] = [
  { id: 'in-1', tenthMg: 200_000, delivery: { lot: 'L1', costPerG: '1.70' } },
  { id: 'out-1', tenthMg: -125_000 },
  { id: 'in-2', tenthMg: 300_000, delivery: { lot: 'L2', costPerG: '1.95' } },
  { id: 'out-2', tenthMg: -250_000 },
  { id: 'in-3', tenthMg: 250_000, delivery: { lot: 'L3', costPerG: '2.10' } },
  { id: 'out-3', tenthMg: -184_000 },
];

function issues(method: CostMethod) {
  const { costs, value, tenthMg } = costLedger(EVENTS, method);
  return [...[1, 2, 3].map((number) => costs.get(`out-${number}`)), value, tenthMg];
}

test('costLedger() costs the three issues and what is left, by either method', () => {
  expect(issues('oldest_first')).toEqual(['21.250000', '46.875000', '36.765000', '40.110000', 191_000]);
  expect(issues('average')).toEqual(['21.250000', '47.500000', '37.413333', '38.836667', 191_000]);
});

test('costLedger() of what was taken back is as if it had not been taken', () => {
  for (const method of ['oldest_first', 'average'] as const) {
    const before = costLedger(EVENTS.slice(0, 3), method);
    const after = costLedger([...EVENTS.slice(0, 4), { id: 'undo', tenthMg: 250_000, reverses: 'out-2' }], method);
    expect(after.value).toBe(before.value);
    expect(Number(after.costs.get('undo'))).toBe(-Number(after.costs.get('out-2')));
    expect(costLedger([EVENTS[0]!, { id: 'undo', tenthMg: -200_000, reverses: 'in-1' }], method).value).toBe('0.000000');
  }
});

test('costLedger() at the average goes on from a scale that said less than nothing', () => {
  const events: StockEvent[] = [
    { id: 'in-1', tenthMg: 10_000, delivery: { lot: 'L1', costPerG: '2' } },
    { id: 'out-1', tenthMg: -10_100 },
    { id: 'in-2', tenthMg: 10_000, delivery: { lot: 'L2', costPerG: '3' } },
  ];
  // 2.00 left with the first issue; 0.9900 g at 3.00 are there, and the missing 0.0100 g cost 0.03.
  const { value, costs, layers } = costLedger(events, 'average');
  expect([value, costs.get('out-1'), costs.get('in-2')]).toEqual(['2.970000', '2.000000', '0.030000']);
  expect(layers).toEqual([{ lot: 'average', tenthMg: 9900, costPerG: '3' }]);
});

const step = fc.record({
  kind: fc.constantFrom('receive', 'use', 'count_up', 'reverse'),
  tenthMg: fc.integer({ min: 1, max: 500_000 }),
  costMinor: fc.integer({ min: 1, max: 999 }),
  at: fc.nat(),
});

/** What people can do to a drawer, one after the other: never more out than there is, nothing taken back twice. */
function history(steps: readonly { kind: string; tenthMg: number; costMinor: number; at: number }[]): StockEvent[] {
  const events: StockEvent[] = [];
  let onHand = 0;
  const add = (event: StockEvent): void => {
    events.push(event);
    onHand += event.tenthMg;
  };
  for (const [index, { kind, tenthMg, costMinor, at }] of steps.entries()) {
    const id = `m${index}`;
    if (kind === 'receive') add({ id, tenthMg, delivery: { lot: id, costPerG: `${costMinor / 100}` } });
    if (kind === 'use' && onHand > 0) add({ id, tenthMg: -Math.min(tenthMg, onHand) });
    if (kind === 'count_up') add({ id, tenthMg });
    const uses = events.filter((event) => event.tenthMg < 0 && !events.some(({ reverses }) => reverses === event.id));
    const wrong = uses[at % Math.max(1, uses.length)];
    if (kind === 'reverse' && wrong && wrong.reverses === undefined) add({ id, tenthMg: -wrong.tenthMg, reverses: wrong.id });
  }
  return events;
}

test('after any history what was paid, less what was used, is what is left', () => {
  fc.assert(
    fc.property(fc.array(step, { maxLength: 60 }), fc.constantFrom<CostMethod>('oldest_first', 'average'), (steps, method) => {
      const events = history(steps);
      const { costs, value, tenthMg, layers } = costLedger(events, method);
      const paid = events.reduce(
        (total, event) => total + (event.delivery ? (event.tenthMg / 10_000) * Number(event.delivery.costPerG) : 0),
        0,
      );
      const used = [...costs.values()].reduce((total, cost) => total + Number(cost), 0);
      expect(used + Number(value)).toBeCloseTo(paid, 4);
      expect(tenthMg).toBe(events.reduce((total, event) => total + event.tenthMg, 0));
      expect(tenthMg).toBeGreaterThanOrEqual(0);
      expect(Number(value)).toBeGreaterThanOrEqual(0);
      if (events.some(({ delivery }) => delivery))
        expect(layers.reduce((total, layer) => total + layer.tenthMg, 0)).toBe(tenthMg);
    }),
  );
});

test('costLedger() that goes on from a line costs the same as one that began with the first', () => {
  fc.assert(
    fc.property(
      fc.array(step, { maxLength: 40 }),
      fc.nat(),
      fc.constantFrom<CostMethod>('oldest_first', 'average'),
      (steps, at, method) => {
        const events = history(steps);
        const whole = costLedger(events, method);
        const cut = at % (events.length + 1);
        const before = costLedger(events.slice(0, cut), method);
        const state = JSON.parse(JSON.stringify(before.state)) as typeof before.state;
        const after = costLedger(events.slice(cut), method, { state, costOf: (id) => before.costs.get(id) });
        expect({ ...after, costs: [...before.costs, ...after.costs] }).toEqual({ ...whole, costs: [...whole.costs] });
      },
    ),
  );
});
