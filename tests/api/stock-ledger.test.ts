import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { oldestFirstLayers } from '../../shared/stock/oldest-first-layers.ts';
import { startApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

const tenthMg = fc.integer({ min: 1, max: 30_000 });
const step = fc.oneof(
  fc.record({ act: fc.constantFrom('use', 'scrap', 'count_down', 'write_off', 'put_back', 'count_up'), lot: fc.nat(1), tenthMg }),
  fc.record({ act: fc.constant('weigh'), lot: fc.nat(1), tenthMg }),
  fc.record({ act: fc.constant('reverse'), lot: fc.nat(1), tenthMg: fc.nat(30) }),
);

const COUNTS = new Set(['weigh', 'count_up', 'count_down']);
const OUT = new Set(['use', 'scrap', 'count_down', 'write_off']);

test.each(['oldest_first', 'average'])(
  'any sequence of movements leaves each lot at their sum, never below what a scale errs, and its cost whole: %s',
  async (stockCost) => {
    const app = await startApp();
    const { version } = (await app.owner.get('/settings')).body;
    await app.owner.patch('/settings', { stockCost }, version).expect(200);
    const product = await addProduct(app.owner);
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 12 }), async (steps) => {
        const lots = [
          await receiveLot(app.owner, product.id, { quantityG: 2 }),
          await receiveLot(app.owner, product.id, { quantityG: 2 }),
        ];
        const sums = [20_000, 20_000];
        const booked: { id: string; lot: number; change: number; open: boolean; counts: boolean }[] = [];
        for (const [place, { act, lot, tenthMg: amount }] of steps.entries()) {
          // Several people book; writing off is the owner's.
          const who = act !== 'write_off' && place % 2 === 1 ? app.bench : app.owner;
          const lotId = lots[lot]!.id;
          const before = sums[lot]!;
          if (act === 'reverse') {
            const wrong = booked[amount % Math.max(1, booked.length)];
            if (!wrong) continue;
            const later = booked.slice(booked.indexOf(wrong) + 1);
            const wasCounted = later.some((one) => one.lot === wrong.lot && one.open && one.counts);
            const may = wrong.open && !wasCounted && sums[wrong.lot]! - wrong.change >= -200;
            await app.owner.post(`/stock-movements/${wrong.id}/reversals`, { reason: 'booked wrongly' }).expect(may ? 201 : 409);
            if (!may) continue;
            sums[wrong.lot]! -= wrong.change;
            wrong.open = false;
            continue;
          }
          const [path, body, change] =
            act === 'weigh'
              ? [`/solder-lots/${lotId}/weighings`, { weighedG: amount / 10_000 }, amount - before]
              : ['/stock-movements', { kind: act, lotId, quantityG: amount / 10_000 }, OUT.has(act) ? -amount : amount];
          const short = act !== 'weigh' && before + change < -200;
          const answer = await who
            .post(path, { ...body, reason: 'as it came' })
            .set('confirm', '/quantityG, /weighedG')
            .set('confirm-reason', 'more than came in')
            .expect(short ? 409 : 201);
          if (short) continue;
          sums[lot]! += change;
          const id = act === 'weigh' ? answer.body.movement?.id : answer.body.id;
          if (id !== undefined) booked.push({ id, lot, change, open: true, counts: COUNTS.has(act) });
        }
        for (const [index, { id }] of lots.entries()) {
          const { onHandG } = (await app.bench.get(`/solder-lots/${id}`).expect(200)).body;
          expect(Math.round(onHandG * 10_000)).toBe(sums[index]);
          expect(onHandG).toBeGreaterThanOrEqual(-0.02);
          const { items } = (await app.bench.get(`/stock-movements?lotId=${id}&limit=200`).expect(200)).body;
          const total = items.reduce(
            (sum: number, { onHandG: grams }: { onHandG: number }) => sum + Math.round(grams * 10_000),
            0,
          );
          expect(total).toBe(sums[index]);
        }
        expect((await app.owner.post('/stock/audit').expect(200)).body).toMatchObject({ ok: true, findings: [] });
      }),
      { numRuns: 15 },
    );
  },
);

test('oldestFirstLayers() sums to what is on hand, from the newest delivery back', () => {
  const delivery = fc.record({ tenthMg: fc.nat(500_000), costPerG: fc.constantFrom('1.7', '1.95', '2.1') });
  fc.assert(
    fc.property(
      fc.array(delivery, { minLength: 1, maxLength: 6 }),
      fc.integer({ min: -200, max: 3_000_000 }),
      (given, onHand) => {
        const deliveries = given.map((one, index) => ({ ...one, lot: `L${index}` }));
        const layers = oldestFirstLayers(deliveries, onHand);
        expect(layers.reduce((sum, layer) => sum + layer.tenthMg, 0)).toBe(Math.max(0, onHand));
        const newest = deliveries.at(-1)!;
        const ofNewest = layers.filter(({ lot }) => lot === newest.lot).reduce((sum, layer) => sum + layer.tenthMg, 0);
        expect(ofNewest).toBeGreaterThanOrEqual(Math.min(newest.tenthMg, Math.max(0, onHand)));
      },
    ),
  );
});
