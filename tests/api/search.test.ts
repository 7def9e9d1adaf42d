import fc from 'fast-check';
import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece } from '../support/at-the-bench.ts';
import { startApp, type Person } from '../support/start-app.ts';

const found = async (person: Person, text: string) => {
  const { body } = await person.get(`/search?text=${encodeURIComponent(text)}`).expect(200);
  return (body.items as { kind: string; label: string }[]).map(({ kind, label }) => `${kind}: ${label}`);
};

async function aStudio() {
  const app = await startApp();
  await aDrawer(app);
  const piece = await aDrawnPiece(app, { title: 'Größere Brosche', wish: 'With a moonstone' });
  return { app, piece };
}

test('GET /search finds a part of a word or number, newest first, and what has all the terms', async () => {
  const { app, piece } = await aStudio();
  expect(await found(app.owner, 'brosch')).toEqual([expect.stringMatching(/^commission: C31-\d+ Größere Brosche$/)]);
  expect(await found(app.owner, 'MOONST')).toHaveLength(1);
  expect(await found(app.owner, piece.number)).toEqual([`piece: ${piece.number} Pendant`]);
  expect(await found(app.owner, 'medium wire')).toEqual(['solder_product: medium wire']);
  expect(await found(app.owner, 'wire nothing')).toEqual([]);
});

test('GET /search follows a change, and forgets what is gone', async () => {
  const { app } = await aStudio();
  const { body: client } = await app.desk.post('/clients', { name: 'Saltmarsh', email: 'saltmarsh@example.org' }).expect(201);
  expect(await found(app.desk, 'saltmarsh@')).toEqual(['client: Saltmarsh']);
  await app.desk.patch(`/clients/${client.id}`, { name: 'Tollgate', email: 'tollgate@example.org' }, client.version).expect(200);
  expect(await found(app.desk, 'saltmarsh')).toEqual([]);
  expect(await found(app.desk, 'tollg')).toEqual(['client: Tollgate']);
});

test('GET /search tells nobody of what they may not know', async () => {
  const { app, piece } = await aStudio();
  await app.desk.post('/clients', { name: 'Harbourside', email: 'harbourside@example.org' }).expect(201);
  expect(await found(app.bench, 'harbourside')).toEqual([]);
  expect(await found(app.student, 'brosche')).toEqual([]);
  expect(await found(app.student, piece.number)).toEqual([]);
  const practice = await aDrawnPiece(app, { title: 'Practice', kind: 'teaching_piece', clientId: null });
  expect(await found(app.student, practice.number)).toEqual([`piece: ${practice.number} Pendant`]);
});

test('GET /search takes any text: nothing in it is a command', async () => {
  const { app } = await aStudio();
  await fc.assert(
    fc.asyncProperty(
      fc.oneof(
        fc.string({ minLength: 3, maxLength: 40 }),
        fc.constantFrom('" OR "', 'a* NEAR(b)', "'; DROP TABLE", 'words:x', '((('),
      ),
      async (text) => {
        const { status } = await app.owner.get(`/search?text=${encodeURIComponent(text)}`);
        expect([200, 422]).toContain(status);
      },
    ),
    { numRuns: 60 },
  );
  await app.owner.get('/search?text=ab').expect(422);
});
