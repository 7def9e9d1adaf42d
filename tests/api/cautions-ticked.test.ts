import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, readiness } from '../support/at-the-bench.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

async function firstHeat(app: TestApp): Promise<string> {
  const piece = await aDrawnPiece(app);
  const { heats } = await planInUse(app.bench, piece.id);
  await issueMetal(app.bench, piece.id);
  return heats[0]!.id;
}

const dueOf = async ({ bench }: TestApp, heatId: string): Promise<string[]> => {
  const { cautions } = (await bench.get(`/heats/${heatId}`).expect(200)).body as { cautions: { id: string; due: boolean }[] };
  return cautions.filter(({ due }) => due).map(({ id }) => id);
};

test('a heat of yesterday that comes late is held to what was ticked yesterday, whatever was ticked since', async () => {
  const app = await startApp();
  const { bench, clock } = app;
  const { lots } = await aDrawer(app);
  const [yesterday, today, late] = [await firstHeat(app), await firstHeat(app), await firstHeat(app)];
  await bench.move(`/heats/${yesterday}`, await readiness(bench, yesterday, lots)).expect(200);
  clock.advance({ hours: 1 });
  const occurredAt = clock.now().toISOString();
  clock.advance({ hours: 23 });
  await bench.move(`/heats/${today}`, await readiness(bench, today, lots)).expect(200);
  const ready = await readiness(bench, late, lots);
  await bench.move(`/heats/${late}`, { ...ready, cautionsRead: ['C3', 'C12'], occurredAt }).expect(200);
});

test('a caution that is read once a person is read again when its words have changed', async () => {
  const app = await startApp();
  const { bench, db } = app;
  const { lots } = await aDrawer(app);
  const [one, other] = [await firstHeat(app), await firstHeat(app)];
  await bench.move(`/heats/${one}`, await readiness(bench, one, lots)).expect(200);
  expect(await dueOf(app, other)).toEqual(['C3', 'C12']);
  db.run(`UPDATE caution_ticks SET words = 'No dust.' WHERE caution_id = 'C4'`);
  expect(await dueOf(app, other)).toEqual(['C3', 'C4', 'C12']);
  // Ticked before the words were kept.
  db.run(`UPDATE caution_ticks SET words = NULL WHERE caution_id = 'C21'`);
  expect(await dueOf(app, other)).toEqual(['C3', 'C4', 'C12', 'C21']);
  await bench.move(`/heats/${one}`, { from: 'primed', to: 'laid_out' }).expect(200);
  await bench.move(`/heats/${one}`, await readiness(bench, one, lots)).expect(200);
  expect(await dueOf(app, other)).toEqual(['C3', 'C12']);
});
