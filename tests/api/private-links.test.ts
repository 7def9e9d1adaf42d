import { expect, test } from 'vitest';
import { runDuePrivateLinks } from '../../src/features/private-links/private-link-due-work.ts';
import { privateLinks } from '../../src/platform/db/tables.ts';
import { aCommission } from '../support/a-commission.ts';
import { aFollowedCommission, aLink, browserAt } from '../support/a-private-link.ts';
import { takeThrough, typePrices } from '../support/a-quote.ts';
import { wordsOf } from '../support/read-pdf.ts';
import { startApp } from '../support/start-app.ts';

test('no link is made or opens until the owner turns links on', async () => {
  const app = await startApp();
  const { desk, owner } = app;
  const { id, number } = await aCommission(desk);
  const refused = await desk.post('/private-links', { commissionId: id }).expect(409);
  expect(refused.body).toMatchObject({
    type: '/api/v1/problems/condition-not-met',
    detail: `Cannot make a link to ${number}: the owner has to turn private links on in the settings`,
  });
  await typePrices(app, { privateLinks: { on: true } });
  const { browser } = await aLink(app, id);
  await browser.get().expect(200);
  await typePrices(app, { privateLinks: { on: false } });
  expect((await browser.get().expect(410)).text).toContain('This link has ended');
  await owner.post('/private-links', { commissionId: '01964e00-0000-7000-8000-000000000000' }).expect(422);
  const { id: own } = await aCommission(desk, { clientId: null, kind: 'own_stock' });
  expect((await desk.post('/private-links', { commissionId: own }).expect(409)).body.missing).toContain('it has no client');
});

test('the secret of a link is shown once; the book and its journal have its hash at most', async () => {
  const app = await startApp();
  const { desk, owner, db } = app;
  const { browser, linkId, commissionId } = await aFollowedCommission(app);
  const secret = browser.base.slice('/link/'.length);
  // 128 bits are 22 letters of base64.
  expect(secret).toMatch(/^[\w-]{22,}$/);
  const { body: link } = await desk.get(`/private-links/${linkId}`).expect(200).expect('etag', '"1"');
  expect(link).toMatchObject({ commissionNumber: 'C31-001', clientName: 'Millrace', state: 'open', endsOn: null, visits: 0 });
  expect(link.allowedMoves).toEqual(['cut_off']);
  const { body: list } = await desk.get(`/private-links?commissionId=${commissionId}&state=open`).expect(200);
  const { body: journal } = await owner.get('/journal?what=private-link').expect(200);
  expect(journal.items).toHaveLength(1);
  const row = JSON.stringify(db.select().from(privateLinks).all());
  for (const text of [JSON.stringify(link), JSON.stringify(list), JSON.stringify(journal), row])
    expect(text).not.toContain(secret);
  expect(JSON.stringify([list, journal])).not.toMatch(/[0-9a-f]{64}/);
  const { browser: other } = await aLink(app, commissionId);
  expect(other.base).not.toBe(browser.base);
});

test('a link that is cut off opens nothing from then on, and the move is made once', async () => {
  const app = await startApp();
  const { browser, linkId } = await aFollowedCommission(app);
  await browser.get().expect(200);
  await app.bench.move(`/private-links/${linkId}`, { from: 'open', to: 'cut_off' }).expect(403);
  const cut = await app.desk.move(`/private-links/${linkId}`, { from: 'open', to: 'cut_off', reason: 'sent on' }).expect(200);
  expect(cut.body).toMatchObject({ state: 'cut_off', stateReason: 'sent on', allowedMoves: [], visits: 1, version: 2 });
  for (const path of ['', '/letters/1', '/care-cards/1']) await browser.get(path).expect(410);
  await browser.send('/messages', { words: 'Hello?' }).expect(410);
  await browser.send('/answers', { version: '1', answer: 'declined' }).expect(410);
  await app.desk.move(`/private-links/${linkId}`, { from: 'open', to: 'cut_off' }).expect(409);
  await app.desk.move(`/private-links/${linkId}`, { from: 'cut_off', to: 'ended' }).expect(409);
});

test('a link ends 30 days after handing over, on the day and by the clock', async () => {
  const app = await startApp();
  const { owner, desk, clock, db } = app;
  const { browser, linkId, commissionId, pieceId, quote } = await aFollowedCommission(app);
  await typePrices(app, { timeZone: 'Europe/Berlin' });
  await browser.send('/answers', { version: '1', answer: 'accepted', read: 'yes' }).expect(303);
  await desk.post('/payments', { commissionId, kind: 'stage', how: 'card', amount: quote.gross }).expect(201);
  db.run(`UPDATE pieces SET state = 'ready', weighed_tenth_mg = 54300 WHERE id = '${pieceId}'`);
  const beyond = { override: true, reason: 'as agreed' };
  await takeThrough(owner, commissionId, ['shaping', 'offered', 'agreed', 'on_bench', 'made'], beyond);
  expect(wordsOf((await browser.get().expect(200)).text)).toContain('ready (now)');
  // Late on 5 May in UTC is 6 May in the studio.
  clock.set('2031-05-05T23:30:00Z');
  await owner.move(`/commissions/${commissionId}`, { from: 'made', to: 'handed_over', ...beyond }, clock.now()).expect(200);
  clock.advance({ days: 20 });
  await owner.move(`/commissions/${commissionId}`, { from: 'handed_over', to: 'settled' }, clock.now()).expect(200);
  expect((await desk.get(`/private-links/${linkId}`)).body.endsOn).toBe('2031-06-05');
  clock.set('2031-06-05T21:59:00Z');
  runDuePrivateLinks(app);
  expect(wordsOf((await browser.get().expect(200)).text)).toContain('with you (now)');
  clock.set('2031-06-05T22:00:00Z');
  await browser.get().expect(410);
  runDuePrivateLinks(app);
  runDuePrivateLinks(app);
  const { body } = await desk.get(`/private-links/${linkId}`).expect(200);
  expect(body).toMatchObject({ state: 'ended', version: 2 });
  const { body: journal } = await owner.get(`/journal?thingId=${linkId}`).expect(200);
  expect(journal.items[0]).toMatchObject({ person: null, after: { state: 'ended' } });
});

test('a link to work that was turned down ends 30 days after', async () => {
  const app = await startApp();
  const { browser, linkId, commissionId } = await aFollowedCommission(app);
  const no = { from: 'asked', to: 'turned_down', reason: 'no bench free' };
  await app.owner.move(`/commissions/${commissionId}`, no, app.clock.now()).expect(200);
  expect((await app.desk.get(`/private-links/${linkId}`)).body.endsOn).toBe('2031-06-04');
  expect(wordsOf((await browser.get().expect(200)).text)).toContain('called off (now)');
  app.clock.advance({ days: 31 });
  await browser.get().expect(410);
});

test('whoever guesses at links is told nothing, and waits after twenty tries', async () => {
  const app = await startApp();
  const { browser } = await aFollowedCommission(app, { language: 'de' });
  const secret = browser.base.slice('/link/'.length);
  const wrong = [secret.slice(0, -1), `${secret}x`, secret.toLowerCase(), '..%2f..', 'a'.repeat(100), '%00'];
  for (const token of wrong) {
    const { text } = await browserAt(app, `/link/${token}`).get().expect(404);
    expect(text).toContain('There is nothing at this address');
    expect(text).not.toMatch(/Millrace|C31-001/);
  }
  for (let tries = wrong.length; tries < 20; tries++) await browserAt(app, `/link/wrong-${tries}`).get().expect(404);
  await browserAt(app, '/link/one-more').get().expect(429);
  // The address is slowed, whatever it asks for.
  expect((await browser.get().expect(429)).text).toContain('That was a lot at once');
  app.clock.advance({ minutes: 61 });
  await browser.get().expect(200);
});

test('links and messages are for desk and owner', async () => {
  const app = await startApp();
  const { linkId } = await aFollowedCommission(app);
  for (const person of [app.bench, app.student]) {
    await person.get('/private-links').expect(403);
    await person.get(`/private-links/${linkId}`).expect(403);
    await person.get('/client-messages').expect(403);
  }
  await app.stranger.get('/private-links').expect(401);
});
