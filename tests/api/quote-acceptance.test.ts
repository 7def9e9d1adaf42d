import { expect, test } from 'vitest';
import { runDueQuotes } from '../../src/features/quotes/quote-due-work.ts';
import { aPricedPendant, aSentQuote, typePrices } from '../support/a-quote.ts';
import { startApp, type Person, type TestApp } from '../support/start-app.ts';

const accept = (person: Person, { clock }: TestApp, id: string) =>
  person.move(`/quotes/${id}`, { from: 'sent', to: 'accepted' }, clock.now());

const acceptedOf = async ({ desk }: TestApp, commissionId: string) =>
  (await desk.get(`/quotes?commissionId=${commissionId}&state=accepted`).expect(200)).body.items as { id: string }[];

const acceptances = async ({ owner }: TestApp, id: string) =>
  (await owner.get(`/journal?thingId=${id}`).expect(200)).body.items.filter(
    ({ after }: { after: { state: string } }) => after.state === 'accepted',
  );

const statusesOf = (answers: { status: number }[]) => answers.map(({ status }) => status).toSorted((a, b) => a - b);

test('two people who accept at once make one acceptance, and the second is told that it is made', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sent = await aSentQuote(app, commissionId);
  const people = [app.desk, app.owner, app.desk, app.owner, app.desk];
  const answers = await Promise.all(people.map((person) => accept(person, app, sent.id)));
  expect(statusesOf(answers)).toEqual([200, 409, 409, 409, 409]);
  for (const { status, body } of answers) {
    if (status === 200) expect(body).toMatchObject({ state: 'accepted', answeredAt: '2031-05-05T08:00:00.000Z' });
    else expect(body).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'accepted' });
  }
  expect(await acceptances(app, sent.id)).toHaveLength(1);
  // A late copy of the one that made it gets the answer it got.
  const body = { from: 'sent', to: 'accepted', occurredAt: '2031-05-05T08:00:00Z', deviceId: 'desk-1', deviceSeq: 1 };
  const second = await aSentQuote(app, commissionId);
  const late = () => app.desk.post(`/quotes/${second.id}/moves`, body).set('idempotency-key', 'accept-0001');
  const copies = await Promise.all([late(), late()]);
  expect(copies.map(({ status }) => status)).toEqual([409, 409]);
  expect(copies[0].body.missing).toEqual(['version 1 is accepted: replace that one, which accepts the newest version sent']);
  expect(await acceptedOf(app, commissionId)).toMatchObject([{ id: sent.id }]);
});

test('the same acceptance sent twice by one device is one, with one answer', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { id } = await aSentQuote(app, commissionId);
  const body = { from: 'sent', to: 'accepted', occurredAt: '2031-05-05T08:00:00Z', deviceId: 'desk-1', deviceSeq: 1 };
  const send = () => app.desk.post(`/quotes/${id}/moves`, body).set('idempotency-key', 'accept-0001');
  const copies = await Promise.all([send(), send(), send()]);
  expect(copies.map(({ status }) => status)).toEqual([200, 200, 200]);
  expect(copies[1].body).toEqual(copies[0].body);
  expect(await acceptances(app, id)).toHaveLength(1);
});

test('while one accepts and another declines or withdraws, one of them is made', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { id } = await aSentQuote(app, commissionId);
  const [yes, no, back] = await Promise.all([
    accept(app.desk, app, id),
    app.desk.move(`/quotes/${id}`, { from: 'sent', to: 'declined', reason: 'too dear' }),
    app.owner.move(`/quotes/${id}`, { from: 'sent', to: 'withdrawn', reason: 'a wrong size' }),
  ]);
  expect(statusesOf([yes, no, back])).toEqual([200, 409, 409]);
  const { state, allowedMoves } = (await app.owner.get(`/quotes/${id}`)).body;
  const made = [yes, no, back].find(({ status }) => status === 200)!;
  expect(state).toBe(made.body.state);
  expect(allowedMoves).toEqual(state === 'accepted' ? ['replaced'] : []);
});

test('nobody accepts what has lapsed, whether the clock has noted it or not', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const { id } = await aSentQuote(app, commissionId, { validUntil: '2031-05-10' });
  app.clock.set('2031-05-11T00:00:01Z');
  const unnoted = await Promise.all([accept(app.desk, app, id), accept(app.owner, app, id)]);
  for (const { status, body } of unnoted) {
    expect(status).toBe(409);
    expect(body.missing).toEqual(['it was valid until 2031-05-10; today is 2031-05-11']);
  }
  runDueQuotes(app);
  for (const { status, body } of await Promise.all([accept(app.desk, app, id), accept(app.owner, app, id)])) {
    expect(status).toBe(409);
    expect(body).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'lapsed', allowed: [] });
  }
  expect(await acceptedOf(app, commissionId)).toEqual([]);
});

test('after the metal has moved nobody accepts; the metal alone is priced again in one call, and that is accepted once', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await typePrices(app, { metalShareFraction: 0.01 });
  const first = await aSentQuote(app, commissionId);
  await typePrices(app, { finePrice: { perG: '1.25', typedAt: app.clock.now().toISOString(), source: 'the refiner’s page' } });
  for (const { status, body } of await Promise.all([accept(app.desk, app, first.id), accept(app.owner, app, first.id)])) {
    expect(status).toBe(409);
    expect(body.missing).toEqual([expect.stringContaining('the fine price has moved by 19 % since, from 1.05 to 1.25')]);
  }
  const again = await aSentQuote(app, commissionId, { from: first.id, metalOnly: true });
  const { differences, changed } = (await app.owner.get(`/quotes/${first.id}/comparison?with=${again.id}`).expect(200)).body;
  // 1.42 + 0.20 · 0.925, and 46.00 an ounce + 0.20 · 0.999 a gram.
  expect(changed).toEqual([
    { input: 'metals.sterling-925.price.amount', before: '1.42', after: '1.605' },
    { input: 'metals.fine-silver-999.price.amount', before: '46.00', after: '1.678734' },
    { input: 'metals.fine-silver-999.price.per', before: 'ozt', after: 'g' },
    { input: 'policy.finePricePerG', before: '1.05', after: '1.25' },
  ]);
  for (const { group, differenceMinor } of differences.lines)
    if (group !== 'metal' && group !== 'scrap_credit') expect([group, differenceMinor]).toEqual([group, 0]);
  const answers = await Promise.all([accept(app.desk, app, again.id), accept(app.owner, app, again.id)]);
  expect(statusesOf(answers)).toEqual([200, 409]);
  expect(await acceptedOf(app, commissionId)).toMatchObject([{ id: again.id }]);
});
