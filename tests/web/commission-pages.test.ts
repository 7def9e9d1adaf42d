import { expect, test } from 'vitest';
import { aFollowedCommission } from '../support/a-private-link.ts';
import { aDrawnPiece } from '../support/at-the-bench.ts';
import { aDrawer } from '../support/at-the-bench.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp } from '../support/start-app.ts';

test('an enquiry is noted with a new client, survives a reload half-typed, and becomes a commission with a piece', async () => {
  const app = await startApp();
  await aDrawer(app);
  const { page, complaints } = await visit(app, '/', { as: 'desk' });
  await page.getByRole('heading', { name: 'Today' }).waitFor();
  await expectAccessible(page);
  await page.getByRole('link', { name: 'Note an enquiry' }).click();
  await page.getByLabel('What do they want').fill('Bangle for a wedding');
  await page.getByLabel('How many').fill('0');
  await page.reload();
  await page.getByLabel('By when').fill('2031-07-01');
  await page.getByLabel('Name of the client').fill('Millrace');
  await page.getByLabel('E-mail or phone').fill('millrace@example.org');
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Note it' }).click();
  await page.getByText('One field cannot be used').or(page.getByText('Quantity must be')).first().waitFor();
  expect(await page.getByLabel('What do they want').inputValue()).toBe('Bangle for a wedding');
  await page.getByLabel('How many').fill('1');
  await page.getByRole('button', { name: 'Note it' }).click();
  await page.getByRole('heading', { name: /C31-\d+ Bangle for a wedding/ }).waitFor();
  await expectAccessible(page);
  // One client, however often the form was sent.
  const clients = (await app.desk.get('/clients?name=Millrace').expect(200)).body.items;
  expect(clients).toHaveLength(1);
  await page.getByRole('button', { name: 'Lay out a piece' }).click();
  await page.getByRole('link', { name: /Heats C31-/ }).click();
  await page.getByText('This piece has no design yet').waitFor();
  expect(complaints).toEqual([]);
});

test('a move that asks for a reason says so, takes it, and is done once', async () => {
  const app = await startApp();
  const { body: client } = await app.desk.post('/clients', { name: 'Tollgate', email: 'tollgate@example.org' }).expect(201);
  const { body: asked } = await app.desk
    .post('/commissions', { title: 'Spoon', kind: 'one_off', clientId: client.id })
    .expect(201);
  const { page } = await visit(app, `/commissions/${asked.id}`, { as: 'owner', width: 360 });
  await page.getByRole('button', { name: 'Turn it down' }).click();
  await page.getByRole('alert').waitFor();
  await page.getByLabel('Reason').fill('Too large for the kiln');
  await page.getByRole('button', { name: 'Turn it down' }).last().click();
  await page.getByText('turned down').waitFor();
  await expectNoSidewaysScroll(page);
  const { body } = await app.owner.get(`/commissions/${asked.id}`).expect(200);
  expect(body).toMatchObject({ state: 'turned_down', stateReason: 'Too large for the kiln', version: asked.version + 1 });
});

test('a student sees no commissions, and the bench is told no client', async () => {
  const app = await startApp();
  const { page } = await visit(app, '/', { as: 'student' });
  await page.getByRole('heading', { name: 'Today' }).waitFor();
  expect(await page.getByRole('link', { name: 'Commissions' }).count()).toBe(0);
  expect(await page.getByRole('link', { name: 'Pieces' }).count()).toBe(1);
});

test('the one box finds a commission by a part of its title', async () => {
  const app = await startApp();
  const { body } = await app.desk.post('/commissions', { title: 'Größere Brosche', kind: 'own_stock' }).expect(201);
  const { page } = await visit(app, '/', { as: 'desk', width: 360, language: 'de' });
  await page.getByRole('searchbox').fill('brosch');
  await page.keyboard.press('Enter');
  await page.getByRole('link', { name: body.number as string }).click();
  await page.getByRole('heading', { name: /Größere Brosche/ }).waitFor();
  await expectNoSidewaysScroll(page);
});

test('what was said to the client and by them stands on the page of the commission', async () => {
  const app = await startApp();
  const { commissionId, browser: client } = await aFollowedCommission(app);
  await client.send('/messages', { words: 'Could it be smaller?' }).expect(303);
  const { page } = await visit(app, `/commissions/${commissionId}`, { as: 'desk', width: 360 });
  await page.getByText('Could it be smaller?').waitFor();
  await page.getByText('Note a letter or a call').click();
  await page.getByLabel('About what').selectOption('another date');
  await page.getByLabel('On which day').fill('2031-05-04');
  await page.getByLabel('What was said').fill('A week later, and they do not mind.');
  await page.reload();
  await page.getByRole('button', { name: 'Note what was said' }).click();
  await page.getByText('May 4, 2031, by telephone: another date').waitFor();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  const { items } = (await app.desk.get(`/client-letters?commissionId=${commissionId}`).expect(200)).body;
  expect(items).toMatchObject([{ kind: 'new_date', how: 'phone', note: 'A week later, and they do not mind.' }]);
});

test('a move made by mistake is taken back by one tap, where the way back is open', async () => {
  const app = await startApp();
  const { id } = await aDrawnPiece(app);
  const { page } = await visit(app, `/pieces/${id}`, { as: 'bench' });
  await page.getByRole('button', { name: 'Set it aside' }).click();
  await page.getByLabel('Reason').fill('the wrong piece');
  await page.getByRole('button', { name: 'Set it aside' }).last().click();
  await page.getByText('Done: Set it aside.').waitFor();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('It is taken back.').waitFor();
  expect((await app.bench.get(`/pieces/${id}`).expect(200)).body.state).toBe('drawn');
});

test('what was noted of a promise is put right at its page: day, place of sale and budget, and what cannot be is marked', async () => {
  const app = await startApp();
  const { body: client } = await app.desk.post('/clients', { name: 'Tollgate', email: 'tollgate@example.org' }).expect(201);
  const { body: asked } = await app.desk
    .post('/commissions', { title: 'Spoon', kind: 'one_off', clientId: client.id })
    .expect(201);
  const { page } = await visit(app, `/commissions/${asked.id}`, { as: 'desk', width: 360 });
  await page.getByText('Put right what was noted').click();
  const place = page.getByLabel('Where it is sold');
  await place.fill('qq');
  await page.getByLabel('By when').fill('2031-07-01');
  await page.getByLabel('Budget, EUR').fill('240.50');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.locator('[aria-invalid=true]').first().waitFor();
  expect(await place.getAttribute('aria-invalid')).toBe('true');
  await page.reload();
  expect(await page.getByLabel('Budget, EUR').inputValue()).toBe('240.50');
  await place.fill('de');
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText(/Due .*2031/).waitFor();
  expect((await app.desk.get(`/commissions/${asked.id}`).expect(200)).body).toMatchObject({
    dueOn: '2031-07-01',
    placeOfSale: 'DE',
    budget: { amountMinor: 24_050, currency: 'EUR' },
    title: 'Spoon',
  });
});
