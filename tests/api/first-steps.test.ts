import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { addProduct, receiveLot } from '../support/stock.ts';
import { startApp } from '../support/start-app.ts';

test('the first steps are ticked as the book shows them, and told no more when the owner says so', async () => {
  const { owner, bench } = await startApp();
  const done = async () => {
    const { body } = await owner.get('/first-steps').expect(200);
    return body.steps.flatMap((one: { step: string; done: boolean }) => (one.done ? [one.step] : []));
  };
  // The studio of the tests has four people from the start.
  expect(await done()).toEqual(['person']);
  await owner.post('/benches', { name: 'Anvil' }).expect(201);
  expect(await done()).toEqual(['bench', 'person']);
  await aCommission(owner);
  const { id } = await addProduct(owner);
  expect(await done()).toEqual(['bench', 'commission', 'person']);
  await receiveLot(owner, id);
  expect(await done()).toEqual(['solder', 'bench', 'commission', 'person']);
  const { body } = await owner.get('/settings').expect(200);
  const finePrice = { perG: '0.9', typedAt: '2031-05-05T07:00:00Z', source: 'the morning list' };
  await owner.patch('/settings', { finePrice }, body.version).expect(200);
  expect(await done()).toContain('prices');

  await owner.patch('/settings', { firstSteps: { shown: false } }, body.version + 1).expect(200);
  expect((await owner.get('/first-steps').expect(200)).body.shown).toBe(false);
  await bench.get('/first-steps').expect(403);
});
