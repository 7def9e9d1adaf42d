import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, readiness } from '../support/at-the-bench.ts';
import { aDevice, sendSteps } from '../support/bench-steps.ts';
import { startApp, type Person } from '../support/start-app.ts';

/** Two pieces of two people, the first heat of each ready to be lit, and two benches; one person works at the first. */
async function twoReady() {
  const app = await startApp();
  const { bench, owner, actors } = app;
  const { lots } = await aDrawer(app);
  const ready = async (person: Person) => {
    const piece = await aDrawnPiece(app);
    const { heats } = await planInUse(bench, piece.id);
    await issueMetal(bench, piece.id);
    const [heat] = heats;
    await person.move(`/heats/${heat!.id}`, await readiness(person, heat!.id, lots)).expect(200);
    return { heat: heat!, path: `/heats/${heat!.id}` };
  };
  const made = async (body: object) => (await owner.post('/benches', body).expect(201)).body.id as string;
  const anvil = await made({ name: 'Anvil', personId: actors.bench.personId });
  const lantern = await made({ name: 'Lantern' });
  return { ...app, anvil, lantern, first: await ready(bench), second: await ready(owner) };
}

const LIT = { from: 'primed', to: 'alight' };

test('a second heat is not lit at a bench where one is alight, and it is said which, by whom', async () => {
  const { bench, owner, anvil, lantern, first, second } = await twoReady();
  const lit = (await bench.move(first.path, LIT).expect(200)).body;
  expect(lit).toMatchObject({ state: 'alight', benchId: anvil });
  const refused = (await owner.move(second.path, { ...LIT, benchId: anvil }).expect(409)).body;
  expect(refused.detail).toContain(`${first.heat.number} is alight at Anvil, lit by Basalt: one flame at a time at a bench`);
  expect(refused.alight).toEqual({
    heatId: first.heat.id,
    number: first.heat.number,
    litBy: 'Basalt',
    bench: 'Anvil',
    alightAt: '2031-05-05T08:00:00.000Z',
  });
  expect((await owner.get(second.path).expect(200)).body).toMatchObject({ state: 'primed', benchId: null });
  expect((await owner.move(second.path, { ...LIT, benchId: lantern }).expect(200)).body.benchId).toBe(lantern);
  // A false start leaves the bench free.
  await bench.move(first.path, { from: 'alight', to: 'primed', nothingFlowed: true }).expect(200);
  expect((await bench.get(first.path)).body.benchId).toBeNull();
  await bench.move(first.path, { ...LIT, benchId: lantern }).expect(409);
  await owner.move(second.path, { from: 'alight', to: 'cooling', seen: 'ran' }).expect(200);
  await bench.move(first.path, { ...LIT, benchId: lantern }).expect(200);
});

test('a bench that is closed or unknown is told at its field, and one is named with no other move', async () => {
  const { bench, owner, lantern, first } = await twoReady();
  await owner.patch(`/benches/${lantern}`, { active: false }, 1).expect(200);
  for (const benchId of [lantern, first.heat.id])
    expect((await bench.move(first.path, { ...LIT, benchId }).expect(422)).body.errors).toMatchObject([{ pointer: '/benchId' }]);
  const odd = { from: 'primed', to: 'laid_out', benchId: lantern };
  expect((await bench.move(first.path, odd).expect(422)).body.errors).toMatchObject([{ pointer: '/benchId' }]);
});

test('a heat that was lit earlier by its own clock, and is told later, does not wait for one lit after it', async () => {
  const { bench, owner, clock, anvil, first, second } = await twoReady();
  clock.advance({ minutes: 30 });
  await owner.move(second.path, { ...LIT, benchId: anvil }, '2031-05-05T08:20:00Z').expect(200);
  await bench.move(first.path, LIT, '2031-05-05T08:21:00Z').expect(409);
  await bench.move(first.path, LIT, '2031-05-05T08:05:00Z').expect(200);
  const cooled = await bench.move(first.path, { from: 'alight', to: 'cooling', seen: 'ran' }, '2031-05-05T08:08:00Z').expect(200);
  expect(cooled.body).toMatchObject({ alightAt: '2031-05-05T08:05:00.000Z', endedAt: '2031-05-05T08:08:00.000Z' });
});

test('a flame that was put out is not lit again by taking that back while another burns', async () => {
  const { bench, owner, clock, anvil, first, second } = await twoReady();
  const steps = aDevice('anvil-tablet');
  const at = clock.now().toISOString();
  await bench.move(first.path, LIT).expect(200);
  const off = steps(at, { do: 'move_heat', heatId: first.heat.id, from: 'alight', to: 'cooling', seen: 'ran' });
  expect((await sendSteps(bench, [off], at))[0]!.status).toBe(200);
  await owner.move(second.path, { ...LIT, benchId: anvil }).expect(200);
  const back = () => sendSteps(bench, [steps(at, { do: 'undo', undoes: off.key })], at);
  expect((await back())[0]!.problem!.missing).toEqual([expect.stringContaining('another heat is alight now')]);
  await owner.move(second.path, { from: 'alight', to: 'cooling', seen: 'ran' }).expect(200);
  expect((await back())[0]!.status).toBe(200);
  expect((await bench.get(first.path)).body.state).toBe('alight');
});
