import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { aPricedPendant, aSketch } from '../support/a-quote.ts';
import { startApp } from '../support/start-app.ts';

const BODIES = [
  'null',
  '[]',
  '"x"',
  '1e400',
  '{"commissionId":null,"pieceId":[],"overrides":null}',
  '{"from":{},"to":[],"occurredAt":1,"deviceId":"","deviceSeq":-1}',
  '{"title":"\\u0000","kind":"repair","clientId":"\\ud800","dueOn":"0000-00-00","quantity":1e308}',
  '{"operation":"x","startedAt":"9999-12-31T23:59:59Z","general":true,"minutesByHand":0.5}',
  '{"amount":{"amountMinor":9007199254740993,"currency":"XTS"},"kind":"deposit","how":"cash"}',
  '{"__proto__":{"owner":true}}',
  '{"constructor":{"prototype":{"owner":true}}}',
  '{"to":"sent","from":"sketch"',
];

test('no body and no path makes commissions, quotes, payments or times answer 5xx', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const sketch = await aSketch(app, commissionId);
  const time = (await app.owner.post('/bench-times', { general: true, operation: 'sweeping' }).expect(201)).body;
  const other = await aCommission(app.desk);
  const paths = [
    '/commissions',
    '/estimates',
    '/quotes',
    '/payments',
    '/bench-times',
    `/commissions/${other.id}/moves`,
    `/quotes/${sketch.id}/moves`,
    `/bench-times/${time.id}/moves`,
    '/quotes/%00/moves',
    '/bench-times/..%2f..%2fsettings/moves',
  ];
  for (const path of paths) {
    for (const body of BODIES) {
      const answer = await app.owner
        .post(path)
        .set({ 'content-type': 'application/json', 'idempotency-key': 'hostile-1' })
        .send(body);
      expect([path, body, answer.status]).toEqual([
        path,
        body,
        expect.toSatisfy((status: number) => status >= 400 && status < 500),
      ]);
      expect(answer.headers['content-type']).toMatch(/^application\/problem\+json/);
    }
  }
  for (const path of ['/commissions?cursor=x', '/quotes?limit=0', '/payments?commissionId=1', '/bench-times?state=asleep'])
    await app.owner.get(path).expect(422);
  expect((await app.owner.get(`/commissions/${other.id}`).expect(200)).body.version).toBe(1);
});

test('overrides that break the sums are refused in words', async () => {
  const app = await startApp();
  const { pieceId } = await aPricedPendant(app);
  const bad = [
    { policy: { ratesPerHour: { bench: null } } },
    { metals: [] },
    { design: { parts: [] } },
    { solders: null },
    { policy: { profit: { marginFraction: 0.4, markupFraction: 1 } } },
    { policy: { finePricePerG: '1,05' } },
    { currency: 'XAU' },
    { heats: [{ joints: [], parts: ['plate'], peakC: 1e9 }] },
  ];
  for (const overrides of bad) {
    const answer = await app.owner.post('/estimates', { pieceId, overrides });
    expect([overrides, answer.status]).toEqual([overrides, 422]);
    expect(answer.body.detail.length).toBeGreaterThan(20);
  }
});
