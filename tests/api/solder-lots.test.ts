import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';
import { addProduct, aSolderLot, receiveLot } from '../support/stock.ts';

test('POST /solder-lots numbers the lot, and books its delivery in the same step', async () => {
  const { owner, desk } = await startApp();
  const product = await addProduct(owner);
  const made = await desk.post('/solder-lots', aSolderLot(product.id, { quantityG: 12.34567 })).expect(201);
  expect(made.body).toMatchObject({
    number: 'L1',
    state: 'sealed',
    stateReason: null,
    receivedG: 12.3457,
    onHandG: 12.3457,
    unitCost: { amount: '1.85', per: 'g' },
    useBy: null,
    cadmiumStanding: 'no',
    productCode: 'hard_wire',
  });
  const ledger = await desk.get(`/stock-movements?lotId=${made.body.id}`).expect(200);
  expect(ledger.body.items).toMatchObject([{ kind: 'receive', onHandG: 12.3457, heldG: 0, reversedById: null }]);
});

test('POST /solder-lots once for one key', async () => {
  const { owner } = await startApp();
  const product = await addProduct(owner);
  const send = () => owner.post('/solder-lots', aSolderLot(product.id)).set('idempotency-key', 'delivery-0001').expect(201);
  const first = await send();
  expect((await send()).body).toEqual(first.body);
  expect((await owner.get('/solder-lots').expect(200)).body.items).toHaveLength(1);
});

test('POST /solder-lots holds back what is unmarked, or may hold cadmium', async () => {
  const { owner } = await startApp();
  const wire = await addProduct(owner);
  const paste = await addProduct(owner, { code: 'paste', form: 'paste', metalFraction: 0.75 });
  const doubtful = await addProduct(owner, { code: 'old', form: 'rod', cadmiumStanding: 'unknown' });
  expect(await receiveLot(owner, wire.id, { markOnMetal: null })).toMatchObject({
    state: 'held_back',
    stateReason: 'no mark on the metal',
  });
  expect(await receiveLot(owner, paste.id, { markOnMetal: null })).toMatchObject({ state: 'sealed', useBy: '2032-05-05' });
  expect(await receiveLot(owner, doubtful.id)).toMatchObject({
    state: 'held_back',
    stateReason: 'cadmium unknown',
    cadmiumStanding: 'unknown',
  });
  expect(await receiveLot(owner, wire.id, { cadmiumStanding: 'yes' })).toMatchObject({
    state: 'held_back',
    stateReason: 'cadmium is in it',
  });
  const undocumented = await owner.post('/solder-lots', aSolderLot(doubtful.id, { cadmiumStanding: 'no' })).expect(422);
  expect(undocumented.body.errors).toMatchObject([{ pointer: '/document' }]);
  const document = { kind: 'laboratory_analysis', reference: 'sheet 88 in the red folder', datedOn: '2031-05-04' };
  expect(await receiveLot(owner, doubtful.id, { cadmiumStanding: 'no', document })).toMatchObject({
    state: 'sealed',
    cadmiumDocument: document,
  });
});

test('POST /solder-lots refuses dates that cannot be, unknown products and amounts outside the fences', async () => {
  const { owner } = await startApp();
  const product = await addProduct(owner);
  const pointers = async (given: Record<string, unknown>) =>
    (await owner.post('/solder-lots', aSolderLot(product.id, given)).expect(422)).body.errors.map(
      (error: { pointer: string }) => error.pointer,
    );
  expect(await pointers({ receivedOn: '2031-05-06', useBy: '2031-05-01' })).toEqual(['/receivedOn', '/useBy']);
  expect(await pointers({ useBy: '2033-05-06' })).toEqual(['/useBy']);
  expect(await pointers({ quantityG: 6000, receivedOn: '2031-13-02', markOnMetal: 'too long' })).toEqual([
    '/receivedOn',
    '/markOnMetal',
    '/quantityG',
  ]);
  expect(await pointers({ quantityG: '20' })).toEqual(['/quantityG']);
  expect(await pointers({ unitCost: { amount: '1,85', per: 'g' } })).toEqual(['/unitCost/amount']);
  expect(await pointers({ productId: '01890000-0000-7000-8000-000000000000' })).toEqual(['/productId']);
  expect((await owner.get('/solder-lots').expect(200)).body.items).toEqual([]);
});

test('POST /solder-lots asks about a cost far from what the product usually costs', async () => {
  const { owner } = await startApp();
  const product = await addProduct(owner);
  await receiveLot(owner, product.id, { unitCost: { amount: '1.80', per: 'g' } });
  await receiveLot(owner, product.id, { unitCost: { amount: '2.00', per: 'g' } });
  // The median of 1.80 and 2.00 is 1.90, so from 0.95 to 2.85 passes.
  await receiveLot(owner, product.id, { unitCost: { amount: '2.85', per: 'g' } });
  const dear = aSolderLot(product.id, { unitCost: { amount: '46.00', per: 'g' } });
  const asked = await owner.post('/solder-lots', dear).expect(422);
  expect(asked.body.errors).toMatchObject([{ pointer: '/unitCost/amount', given: '46.00', confirmable: true }]);
  const perOunce = { ...dear, unitCost: { amount: '56.00', per: 'g' } };
  // 56 / 31.1034768 = 1.800442 a gram.
  expect((await owner.post('/solder-lots', perOunce).expect(422)).body.errors).toMatchObject([
    {
      detail: expect.stringContaining('1.800442 a gram: was that meant?'),
      unit: 'EUR/g',
      perhaps: { amount: '56.00', per: 'ozt' },
    },
  ]);
  await owner.post('/solder-lots', dear).set('confirm', '/unitCost/amount').set('confirm-reason', 'last of its kind').expect(201);
});

test('POST moves opens a held-back lot by a mark, a reason, and for cadmium a document', async () => {
  const { owner, bench, clock } = await startApp();
  const product = await addProduct(owner, { cadmiumStanding: 'unknown' });
  const { id } = await receiveLot(owner, product.id, { markOnMetal: null });
  const open = (extra: object) => owner.move(`/solder-lots/${id}`, { from: 'held_back', to: 'open', ...extra }, clock.now());
  const refused = await open({}).expect(409);
  expect(refused.body.type).toBe('/api/v1/problems/condition-not-met');
  expect(refused.body.missing).toHaveLength(3);
  expect((await open({ reason: 'tried on scrap', markOnMetal: 'H' }).expect(409)).body.missing).toHaveLength(1);
  const document = { kind: 'supplier_sheet', reference: 'sheet 88 in the red folder', datedOn: '2031-05-02' };
  await bench
    .move(`/solder-lots/${id}`, { from: 'held_back', to: 'open', reason: 'asked them', markOnMetal: 'H', document }, clock.now())
    .expect(403);
  const opened = await open({ reason: 'asked the supplier', markOnMetal: 'H', document }).expect(200);
  expect(opened.body).toMatchObject({ state: 'open', markOnMetal: 'H', cadmiumStanding: 'no', cadmiumDocument: document });
  expect(opened.body.allowedMoves).toEqual(['held_back', 'finished', 'written_off']);
  const [line] = (await owner.get(`/journal?thingId=${id}`).expect(200)).body.items;
  expect(line).toMatchObject({ deviceId: 'tablet-1', before: { state: 'held_back' }, after: { state: 'open' } });
  const late = await open({ reason: 'again' }).expect(409);
  expect(late.body).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'open' });
});

test('POST moves never opens a lot that has cadmium in it, and takes nothing that belongs to another move', async () => {
  const { owner, desk, student, clock } = await startApp();
  const product = await addProduct(owner);
  const { id } = await receiveLot(owner, product.id);
  const move = (body: { from: string; to: string; [extra: string]: unknown }) =>
    owner.move(`/solder-lots/${id}`, body, clock.now());
  await move({ from: 'sealed', to: 'held_back' }).expect(409);
  // Whoever sees that a strip has lost its mark holds it back; to open it again, or write it off, is not for everybody.
  expect((await student.get(`/solder-lots/${id}`).expect(200)).body.allowedMoves).toEqual(['held_back']);
  await student.move(`/solder-lots/${id}`, { from: 'sealed', to: 'written_off', reason: 'no mark' }, clock.now()).expect(403);
  const stray = await move({ from: 'sealed', to: 'open', markOnMetal: 'M', cadmiumStanding: 'yes' }).expect(422);
  expect(stray.body.errors.map((error: { pointer: string }) => error.pointer)).toEqual(['/markOnMetal', '/cadmiumStanding']);
  const held = await desk
    .move(`/solder-lots/${id}`, { from: 'sealed', to: 'held_back', reason: 'yellow fume', cadmiumStanding: 'yes' }, clock.now())
    .expect(200);
  expect(held.body).toMatchObject({ state: 'held_back', stateReason: 'yellow fume', cadmiumStanding: 'yes' });
  const document = { kind: 'supplier_sheet', reference: 'sheet 88 in the red folder', datedOn: '2031-05-02' };
  const blocked = await move({ from: 'held_back', to: 'open', reason: 'surely not', document }).expect(409);
  expect(blocked.body.type).toBe('/api/v1/problems/cadmium-blocks');
  const nowhere = await move({ from: 'held_back', to: 'finished' }).expect(409);
  expect(nowhere.body).toMatchObject({ type: '/api/v1/problems/move-not-allowed', allowed: ['open', 'written_off'] });
});

test('POST moves finishes a lot only when it is as good as empty, and writes off the rest of another', async () => {
  const { owner, bench, clock } = await startApp();
  const product = await addProduct(owner);
  const { id } = await receiveLot(owner, product.id, { quantityG: 1 });
  const move = (body: { from: string; to: string; reason?: string }) => owner.move(`/solder-lots/${id}`, body, clock.now());
  await move({ from: 'sealed', to: 'open' }).expect(200);
  const full = await move({ from: 'open', to: 'finished' }).expect(409);
  expect(full.body).toMatchObject({ type: '/api/v1/problems/condition-not-met', onHandG: 1 });
  await bench.post(`/solder-lots/${id}/weighings`, { weighedG: 0.05, reason: 'last strip' }).expect(201);
  await move({ from: 'open', to: 'finished' }).expect(409);
  await bench.post(`/solder-lots/${id}/weighings`, { weighedG: 0.0499, reason: 'last strip' }).expect(201);
  expect((await move({ from: 'open', to: 'finished' }).expect(200)).body).toMatchObject({
    state: 'finished',
    onHandG: 0,
    allowedMoves: [],
  });
  await bench.post(`/solder-lots/${id}/weighings`, { weighedG: 1, reason: 'found more' }).expect(409);

  const other = await receiveLot(owner, product.id, { quantityG: 3 });
  await owner.move(`/solder-lots/${other.id}`, { from: 'sealed', to: 'written_off' }, clock.now()).expect(409);
  await bench.move(`/solder-lots/${other.id}`, { from: 'sealed', to: 'written_off', reason: 'lost' }, clock.now()).expect(403);
  const gone = await owner
    .move(`/solder-lots/${other.id}`, { from: 'sealed', to: 'written_off', reason: 'lost' }, clock.now())
    .expect(200);
  expect(gone.body).toMatchObject({ state: 'written_off', onHandG: 0, stateReason: 'lost' });
  // It went when the move was made, however late it was sent.
  const late = await receiveLot(owner, product.id, { quantityG: 2 });
  clock.advance({ days: 2 });
  await owner
    .move(`/solder-lots/${late.id}`, { from: 'sealed', to: 'written_off', reason: 'melted down' }, '2031-05-06T09:00:00Z')
    .expect(200);
  const [movement] = (await owner.get(`/stock-movements?lotId=${late.id}`).expect(200)).body.items;
  expect(movement).toMatchObject({
    kind: 'write_off',
    occurredAt: '2031-05-06T09:00:00.000Z',
    recordedAt: '2031-05-07T08:00:00.000Z',
  });
  expect((await owner.post('/stock/audit').expect(200)).body).toMatchObject({ ok: true, findings: [] });
});

test('POST weighings follows the scale up and down, and asks when more than came in is weighed', async () => {
  const { owner, bench, desk } = await startApp();
  const product = await addProduct(owner);
  const { id } = await receiveLot(owner, product.id, { quantityG: 5 });
  const weigh = (weighedG: number) => bench.post(`/solder-lots/${id}/weighings`, { weighedG, reason: 'drawer count' });
  expect((await weigh(4.2).expect(201)).body).toMatchObject({
    movement: { kind: 'count_down', onHandG: -0.8 },
    lot: { onHandG: 4.2 },
  });
  expect((await weigh(4.3).expect(201)).body).toMatchObject({
    movement: { kind: 'count_up', onHandG: 0.1 },
    lot: { onHandG: 4.3 },
  });
  expect((await weigh(4.3).expect(201)).body.movement).toBeNull();
  expect((await weigh(43).expect(422)).body.errors).toMatchObject([{ pointer: '/weighedG', confirmable: true }]);
  await bench.post(`/solder-lots/${id}/weighings`, { weighedG: 4 }).expect(422);
  await desk.post(`/solder-lots/${id}/weighings`, { weighedG: 4, reason: 'count' }).expect(403);
});
