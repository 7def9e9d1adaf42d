import { expect, test } from 'vitest';
import { readiness, workHeat } from '../support/at-the-bench.ts';
import { aCutPendant, mainButton, pressTo, sameClock } from '../support/at-the-tablet.ts';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';

test('a student guesses, is told, and readies the heat only after a tutor’s yes', async () => {
  const { app, heats, lots, plan } = await aCutPendant({ kind: 'teaching_piece' });
  for (const heat of heats.slice(0, 3)) await workHeat(app.bench, heat.id, lots);
  const path = `/bench?heat=${heats[3]!.id}`;
  const { page, browser } = await visit(app, path, { as: 'student', width: 360 });
  await sameClock(app, page);
  await page.getByRole('heading', { name: 'Guess first' }).waitFor();
  expect(await page.getByText(/predicted/).count()).toBe(0);
  const named = page.getByRole('group');
  for (const joint of ['wall-seam', 'bail-seam', 'bezel'])
    await named.filter({ hasText: joint }).getByRole('button', { name: 'stays solid' }).click();
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await page.getByRole('button', { name: 'That is my guess' }).click();
  await page.getByText(/wall-seam: (guessed right|you said)/).waitFor();
  await page.getByText('A student lights no heat without a tutor’s yes to it.').waitFor();
  expect(await mainButton(page).count()).toBe(0);
  expect((await app.student.get(`/plans/${plan.id}/guesses`).expect(200)).body.guesses).toHaveLength(3);

  const tutor = await visit(app, path, { as: 'owner', browser });
  await tutor.page.getByText('A student’s heat').click();
  await tutor.page.getByRole('button', { name: 'Yes: Pebble may light it' }).click();
  await tutor.page.getByRole('button', { name: 'Take the yes back: Pebble' }).waitFor();
  // The student's page hears of it by itself.
  await pressTo(page, 'It is ready');
  await page.locator('.bench-main', { hasText: 'Light it' }).waitFor();
});

test('an earlier joint that moved is said in words of the hand, with both margins, in German too', async () => {
  const { app, heats, lots } = await aCutPendant();
  const { bench } = app;
  for (const heat of heats.slice(0, 3)) await workHeat(bench, heat.id, lots);
  const { version, ...preferences } = (await bench.get('/preferences').expect(200)).body;
  await bench.put('/preferences', { language: 'de', units: preferences.units }, version).expect(200);
  const { page } = await visit(app, '/bench', { as: 'bench', width: 820 });
  await sameClock(app, page);
  await page.getByText(`${heats[3]!.number}: bail-on löten mit easy wire`).waitFor();
  const facts = page.getByRole('region', { name: 'Im Feuer' });
  const told = await facts.textContent();
  // 728 °C are 1342.4 °F, and dark red by Chapman's table of 1972.
  for (const words of ['plate, wall, bail', 'gezeichnet E', '728 °C, 1.342 °F: dunkelrot', 'von bezel weg', 'Lötstopp auf bezel'])
    expect(told).toContain(words);
  await page
    .getByText(/laut Vorhersage um \d+ °C fest, plus oder minus/)
    .first()
    .waitFor();
  await page.getByRole('img', { name: 'Was Lötung 4 mit den Lötstellen davor macht' }).waitFor();
  await expectAccessible(page);
  await pressTo(page, 'Es ist bereit');
  await pressTo(page, 'Anzünden');
  await page.getByRole('button', { name: 'floss durch' }).click();
  await pressTo(page, 'In die Beize');
  await pressTo(page, 'Gespült und trocken');
  await page.getByRole('button', { name: 'Eine frühere Lötstelle ist verrutscht' }).click();
  const form = page.getByRole('region', { name: 'Es ging schief' });
  await form.getByRole('group', { name: 'Welche früheren' }).getByRole('button', { name: 'bezel' }).click();
  await form.getByRole('button', { name: 'Notieren' }).click();
  const read = async () => (await bench.get(`/heats/${heats[3]!.id}`)).body as Record<string, unknown>;
  await expect.poll(async () => (await read())['state']).toBe('spoilt');
  expect(await read()).toMatchObject({ outcome: 'earlier_joint_moved', seen: 'floss durch' });
});

test('the timer runs on the piece, and a lot is weighed in the unit that is typed', async () => {
  const { app, heats, lots, piece } = await aCutPendant();
  const { bench } = app;
  await bench.move(`/heats/${heats[0]!.id}`, await readiness(bench, heats[0]!.id, lots)).expect(200);
  const { page } = await visit(app, '/bench', { as: 'bench' });
  await sameClock(app, page);
  await page.getByRole('button', { name: `Start the timer on ${piece.number}` }).click();
  await page.getByText(`Running on ${piece.number} since`).waitFor();
  const running = async () => (await bench.get('/bench-times/current')).body.running as { heatId: string } | null;
  await expect.poll(async () => (await running())?.heatId).toBe(heats[0]!.id);
  await page.getByRole('button', { name: 'Stop the timer' }).click();
  await expect.poll(running).toBe(null);
  await page.getByText('Weigh a lot').click();
  await page.getByLabel('What the scale says').fill('3.2 dwt');
  await page.getByLabel('Why it differs').fill('chips swept up');
  await page.getByRole('button', { name: 'The scale is right' }).click();
  // 1 dwt = 1.55517384 g.
  const held = async () => (await bench.get(`/solder-lots/${lots['hard']}`)).body.onHandG as number;
  await expect.poll(held).toBeCloseTo(4.9766, 3);
});
