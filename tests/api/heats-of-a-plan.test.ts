import { expect, test } from 'vitest';
import type { OpenDb } from '../../src/platform/db/client.ts';
import { aDrawer, aDrawnPiece, planInUse } from '../support/at-the-bench.ts';
import { countReads } from '../support/counted-reads.ts';
import { startApp } from '../support/start-app.ts';

test('a page of heats tells of each what it tells alone, and looks each plan up once', async () => {
  const app = await startApp();
  await aDrawer(app);
  const pieces = [await aDrawnPiece(app), await aDrawnPiece(app)];
  for (const { id } of pieces) await planInUse(app.bench, id);
  for (const person of [app.bench, app.student]) {
    const read = countReads((app.db as OpenDb['db']).$client);
    const { items } = (await person.get('/heats').expect(200)).body;
    const plansRead = [...read().times].filter(([text]) => text.includes('from "plans" where "plans"."id" = +?'));
    expect(plansRead.map(([, times]) => times)).toEqual(person === app.bench ? [2] : []);
    expect(items).toHaveLength(person === app.bench ? 8 : 0);
    for (const heat of items) expect((await person.get(`/heats/${heat.id}`).expect(200)).body).toEqual(heat);
  }
});
