import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { commissions } from '../../src/platform/db/tables.ts';
import { putCommission, putQuote } from '../support/a-record.ts';
import { anEstimateRequest } from '../support/an-estimate-request.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { startApp, testClock, type TestApp } from '../support/start-app.ts';

const MONDAY = '2031-06-02T08:00:00Z';

/** One job that is promised for a day, by the minutes it stays under eight times in ten: of a new studio, exp(0.8416 × 0.3) times. */
async function promised(app: TestApp, { title, dueOn, minutes }: { title: string; dueOn: string; minutes: number }) {
  const commission = await putCommission(app, { state: 'agreed', title });
  app.db.update(commissions).set({ dueOn }).where(eq(commissions.id, commission.id)).run();
  const labour = [{ operation: 'sawing', role: 'bench' as const, minutes: minutes / Math.exp(0.8416 * 0.3), factor: 1 }];
  putQuote(app, commission.id, anEstimateRequest({ labour, policy: { ratesPerHour: { bench: '24.00', desk: '24.00' } } }));
  return commission;
}

// By hand: one bench of 330 minutes a day. The bangle's 540 minutes are 330 on Monday and 210 on Tuesday; with the studio closed on
// Monday and Tuesday they are 330 on Wednesday and 210 on Thursday, a day after it was due.
test('an absence shifts the load of the coming days, and what it makes late is said', async () => {
  const app = await startApp({ clock: testClock(MONDAY) });
  const { id, number } = await promised(app, { title: 'Bangle', dueOn: '2031-06-04', minutes: 540 });
  const { page, complaints } = await visit(app, '/dates', { as: 'desk', width: 360 });
  const day = (on: string) => page.locator(`[data-day="${on}"]`);
  await day('2031-06-02').getByText('5 h 30 of 5 h 30 taken full').waitFor();
  await day('2031-06-03').getByText('3 h 30 of 5 h 30 taken').waitFor();
  await page.getByText('Everything that is promised can be kept as things stand.').waitFor();
  // On Saturdays nobody works, and nothing is said of them.
  expect(await day('2031-06-07').count()).toBe(0);
  expect(await page.getByRole('img', { name: 'Hours taken of each coming day' }).locator('.chart-fill-0').count()).toBe(2 + 1);
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByText('Note an absence').click();
  await page.getByLabel('First day').fill('2031-06-02');
  await page.getByLabel('Last day', { exact: true }).fill('2031-06-03');
  await page.getByLabel('Why').fill('fair');
  await page.getByRole('button', { name: 'Save' }).click();
  await day('2031-06-02').getByText('nobody at a bench: fair').waitFor();
  await day('2031-06-05').getByText('3 h 30 of 5 h 30 taken').waitFor();
  await page.getByText('due Jun 4, 2031, finished Jun 5, 2031 at the earliest: a day late').waitFor();
  const load = (await app.desk.get('/reports/bench-load').expect(200)).body;
  expect(load.days.slice(0, 4)).toMatchObject([
    { capacityMinutes: 0, takenMinutes: 0 },
    { capacityMinutes: 0, takenMinutes: 0 },
    { takenMinutes: 330, jobs: [{ commissionId: id, number }] },
    { takenMinutes: 210 },
  ]);
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: /Take it out/ }).click();
  await day('2031-06-03').getByText('3 h 30 of 5 h 30 taken').waitFor();
  expect((await app.desk.get('/absences').expect(200)).body.items).toEqual([]);
  expect(complaints).toEqual([]);
});

test('the page answers whether a date can be kept, as the API does, and whom it would make late', async () => {
  const app = await startApp({ clock: testClock(MONDAY) });
  const { number } = await promised(app, { title: 'Bangle', dueOn: '2031-06-04', minutes: 540 });
  const { page } = await visit(app, '/dates', { as: 'bench' });
  await page.getByLabel('By when').fill('2031-06-03');
  await page.getByLabel('Minutes at the bench').fill('600');
  await page.getByRole('button', { name: 'Ask' }).click();
  await page.getByText('Yes: finished Jun 3, 2031, with 1 h to spare.').waitFor();
  await page.getByText(`It would make ${number} a day late.`).waitFor();
  const said = (await app.bench.get('/due-dates?dueOn=2031-06-03&minutes=600').expect(200)).body;
  expect(said).toMatchObject({ canBeDone: true, slackMinutes: 60, madeLate: [{ number, lateDays: 1 }] });
  // Benches are the owner's to say.
  expect(await page.getByRole('button', { name: 'Add a bench' }).count()).toBe(0);
});

test('the owner sets up a bench and who works at it, in German', async () => {
  const app = await startApp({ clock: testClock(MONDAY) });
  await app.owner.put('/preferences', { language: 'de', units: null }, 1).expect(200);
  const { page, complaints } = await visit(app, '/dates', { as: 'owner', width: 360, language: 'de' });
  await page.getByRole('heading', { name: 'Termine' }).waitFor();
  await page.getByLabel('Name des Werkbretts').fill('Amboss');
  await page.getByRole('button', { name: 'Werkbrett hinzufügen' }).click();
  await page.getByLabel('Wer an Amboss arbeitet').selectOption(app.actors.bench.personId);
  await page.getByLabel('Minuten am Tag an Amboss').fill('240');
  await page.getByRole('button', { name: 'Speichern' }).first().click();
  await page.locator('[data-day="2031-06-02"]').getByText('0 min von 4 h vergeben').waitFor();
  const [bench] = (await app.owner.get('/benches').expect(200)).body.items;
  expect(bench).toMatchObject({ name: 'Amboss', personId: app.actors.bench.personId, minutesPerDay: 240 });
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'Amboss schließen' }).click();
  await page.getByText('Kein Werkbrett steht im Buch').waitFor();
  expect(complaints).toEqual([]);
});
