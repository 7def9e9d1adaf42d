import { sql } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { fuzz } from '../house/rig/fuzz.ts';
import { committedWrites } from '../support/committed-writes.ts';
import { startApp } from '../support/start-app.ts';

test(
  'two thousand requests that no page would send are each answered as the document says, and no refusal writes',
  { timeout: 600_000 },
  async () => {
    const { faults, taken, routes, neverTaken, problems, statuses } = await fuzz(2000);
    expect(faults).toEqual([]);
    expect(routes).toBeGreaterThan(250);
    // What is always refused at the door proves nothing of what is behind it.
    expect(taken).toBeGreaterThan(600);
    expect(neverTaken.length).toBeLessThan(routes / 2);
    for (const status of [200, 201, 204, 400, 401, 403, 404, 409, 415, 422])
      expect([status, statuses[status]! > 5]).toEqual([status, true]);
    const { stranger } = await startApp();
    for (const type of problems) {
      const explained = await stranger.get(type.replace('/api/v1', '')).expect(200);
      expect(explained.body).toMatchObject({ type, meaning: expect.stringMatching(/.{30}/) });
    }
  },
);

test('what was written and taken back counts as nothing, what stays is counted by its table', async () => {
  const { db, owner } = await startApp();
  const writes = committedWrites({ db });
  const write = () => db.run(sql`UPDATE people SET name = name`);
  expect(() =>
    db.transaction(() => {
      write();
      throw new Error('taken back');
    }),
  ).toThrow('taken back');
  expect(writes()).toEqual({});
  write();
  await owner.post('/benches', { name: 'Anvil' }).expect(201);
  expect(writes()).toMatchObject({ people: 4, benches: 1, journal: 1 });
});
