import { expect, test } from 'vitest';
import { takeThrough } from '../support/a-quote.ts';
import { aDrawer, aDrawnPiece, planInUse } from '../support/at-the-bench.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { aMetalProduct } from '../support/stocked.ts';

// Monday 5 May 2031; one bench of 330 minutes a day, Monday to Friday.

/** A pendant for own stock, planned; hard solder is used up but for a crumb. */
async function aPlannedPendant(app: TestApp) {
  const { owner, bench, desk } = app;
  const { lots, products } = await aDrawer(app);
  const supplier = (await desk.post('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 8 }).expect(201)).body;
  const piece = await aDrawnPiece(app, { kind: 'own_stock', clientId: undefined, dueOn: '2031-05-16' });
  await planInUse(bench, piece.id);
  await bench.post('/stock-movements', { kind: 'scrap', lotId: lots['hard'], quantityG: 5, reason: 'swept up' }).expect(201);
  const order = async (line: object) => {
    const made = (await desk.post('/supplier-orders', { supplierId: supplier.id, lines: [line] }).expect(201)).body;
    await desk.move(`/supplier-orders/${made.id}`, { from: 'to_order', to: 'sent' }).expect(200);
    return made;
  };
  const ask = async (query: string) => (await owner.get(`/due-dates?minutes=300&${query}`).expect(200)).body;
  return { piece, products, order, ask };
}

test('a date waits for the solder that is short: by the lead time, by that of its order, and then as promised', async () => {
  const app = await startApp();
  const { piece, products, order, ask } = await aPlannedPendant(app);
  const of = `commissionId=${piece.commissionId}`;
  expect(await ask('dueOn=2031-05-07')).toMatchObject({ canBeDone: true, finishesOn: '2031-05-05', waits: [], readyOn: null });
  // Eight working days from Monday are Thursday of the next week.
  const none = await ask(`dueOn=2031-05-07&${of}`);
  expect(none).toMatchObject({ canBeDone: false, finishesOn: '2031-05-15', readyOn: '2031-05-15', lateDays: 8 });
  expect(none.waits).toEqual([
    { what: 'hard wire', shortG: expect.any(Number), until: '2031-05-15', because: 'lead_time', order: null, overdueSince: null },
  ]);
  expect(none.says).toMatch(
    /^No, 8 days late: finished on 2031-05-15; it waits for [\d.]+ g of hard wire, not on order: there by 2031-05-15 if it is ordered today$/,
  );
  app.clock.advance({ days: 1 });
  const made = await order({ productId: products['hard'], quantityG: 5 });
  expect((await ask(`dueOn=2031-05-20&${of}`)).waits[0]).toMatchObject({ because: 'expected', order: made.number });
  await app.desk
    .move(`/supplier-orders/${made.id}`, { from: 'sent', to: 'promised', promisedOn: '2031-05-21' }, app.clock.now())
    .expect(200);
  const promised = await ask(`dueOn=2031-05-22&${of}`);
  // 660 minutes of two days, 300 of work.
  expect(promised).toMatchObject({ canBeDone: true, finishesOn: '2031-05-21', slackMinutes: 360 });
  expect(promised.says).toMatch(
    /^Yes, with 6 h to spare; it waits for [\d.]+ g of hard wire until 2031-05-21, as promised of order O1$/,
  );
  app.clock.set('2031-05-23T08:00:00Z');
  expect((await ask(`dueOn=2031-05-23&${of}`)).says).toContain('order O1 was promised for 2031-05-21 and has not come');
  await app.owner.get(`/due-dates?minutes=300&dueOn=2031-05-23&commissionId=${piece.id}`).expect(422);
});

test('what is promised and waits lets the next be worked, and the load of the benches says what for', async () => {
  const app = await startApp();
  const { owner, desk } = app;
  const { piece, ask } = await aPlannedPendant(app);
  await takeThrough(owner, piece.commissionId, ['shaping', 'agreed']);
  const load = (await owner.get('/reports/bench-load').expect(200)).body;
  expect(load.rows[0]).toMatchObject({ finishesOn: '2031-05-15', lateDays: 0 });
  expect(load.rows[0].notes).toEqual(expect.arrayContaining([expect.stringContaining('waits for')]));
  // Another work is finished today, though the pendant is due before it.
  expect(await ask('dueOn=2031-05-19')).toMatchObject({ canBeDone: true, finishesOn: '2031-05-05', madeLate: [] });
  // Asked about itself, it is not in its own way.
  expect(await ask(`dueOn=2031-05-16&commissionId=${piece.commissionId}`)).toMatchObject({
    canBeDone: true,
    finishesOn: '2031-05-15',
    waits: [{ what: 'hard wire' }],
  });
  // Metal waits as solder does: of sheet for its plate there is none.
  await desk
    .post('/metal-lots', {
      productId: (
        await owner
          .post('/metal-products', aMetalProduct({ supplier: 'Elsewhere', form: { kind: 'sheet', thicknessMm: 0.8 } }))
          .expect(201)
      ).body.id,
      receivedOn: '2031-05-05',
      quantityG: 1,
    })
    .expect(201);
  const other = await aDrawnPiece(app, { kind: 'own_stock', clientId: undefined, dueOn: '2031-06-16' });
  const metal = await ask(`dueOn=2031-06-16&commissionId=${other.commissionId}`);
  // Nobody has noted its supplier: two weeks.
  expect(metal.waits).toEqual(
    expect.arrayContaining([expect.objectContaining({ what: 'Round wire 1.2', until: '2031-05-19', because: 'lead_time' })]),
  );
});
