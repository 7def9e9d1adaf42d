import { expect, test } from 'vitest';
import { expectAccessible, expectNoSidewaysScroll, visit } from '../support/page.ts';
import { addProduct } from '../support/stock.ts';
import { startApp } from '../support/start-app.ts';

test('torch of the book, rounding step, trims, and the parts of what flux, pickle and gas cost are typed and taken out', async () => {
  const app = await startApp();
  await addProduct(app.owner);
  const torch = (await app.owner.post('/torches', { name: 'Lantern, number 3', torch: 'small' }).expect(201)).body;
  const settings = async () => (await app.owner.get('/settings').expect(200)).body.settings;
  const { page } = await visit(app, '/studio/settings', { as: 'owner', width: 360 });
  await page.getByLabel('Torch of the book').selectOption('Lantern, number 3');
  const typed = {
    'Rounded up to': '5',
    'Flux brushed on': '0,03',
    'Acid that can be used up': '55',
    'Oxide after a heat': '2',
    'Getting rid of a bath': '11.5',
    'Bought oxygen': '0.01',
    'Of it reaches the metal': '4',
    'Hard wire, %': '25',
  };
  for (const [label, value] of Object.entries(typed)) await page.getByLabel(label).fill(value);
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  const save = async () => {
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('Saved.').waitFor();
  };
  await save();
  expect(await settings()).toMatchObject({
    bench: { torchId: torch.id, torch: 'medium' },
    tax: { roundUpToMinor: 500 },
    flux: { gPerCm2: 0.03, boraxFraction: 0.35 },
    pickle: { usableAcidFraction: 0.55, oxideUm: 2, disposalPerBath: '11.5' },
    gas: { oxygenPricePerG: '0.01', efficiencyFraction: 0.04, powerW: 1500 },
    solderTrims: { hard_wire: 0.25 },
  });
  await page.getByLabel('Torch of the book').selectOption('none: the one described below');
  for (const label of ['Rounded up to', 'Bought oxygen', 'Hard wire, %']) await page.getByLabel(label).fill('');
  await save();
  const { bench, tax, gas, solderTrims } = await settings();
  expect(bench.torchId ?? null).toBeNull();
  expect(tax.roundUpToMinor ?? null).toBeNull();
  expect(gas.oxygenPricePerG ?? null).toBeNull();
  expect(solderTrims).toEqual({});
});
