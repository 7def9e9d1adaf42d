import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, readiness } from '../support/at-the-bench.ts';
import { pendantPlan } from '../support/pendant.ts';
import { addProduct, receiveLot } from '../support/stock.ts';
import { startApp, type Person, type TestApp } from '../support/start-app.ts';

async function cutPiece(app: TestApp, asked?: object) {
  const piece = await aDrawnPiece(app);
  const { heats } = await planInUse(app.bench, piece.id, asked);
  await issueMetal(app.bench, piece.id);
  return heats[0]!;
}

async function setFlux(owner: Person, benchFlux: object) {
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', { benchFlux }, version).expect(200);
}

const seen = async (person: Person, heatId: string) => {
  const { heat } = (await person.get(`/bench/now?heatId=${heatId}`).expect(200)).body;
  const cautions = (heat.cautions as { id: string }[]).map(({ id }) => id);
  return { flux: heat.flux, hasC3: cautions.includes('C3') };
};

test('the fluoride caution is shown until the data sheet of the flux says that there is none', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  const { lots } = await aDrawer(app);
  const heat = await cutPiece(app);
  expect(await seen(bench, heat.id)).toMatchObject({
    hasC3: true,
    flux: {
      name: 'Borax flux',
      fluoride: 'unknown',
      ofPaste: null,
      mayHoldFluoride: true,
      says: expect.stringContaining('may hold fluoride'),
    },
  });
  await setFlux(owner, { name: 'Powder in the blue tin', fluoride: 'no' });
  expect(await seen(bench, heat.id)).toMatchObject({
    hasC3: false,
    flux: { mayHoldFluoride: false, says: 'Powder in the blue tin, 35 % borax; no fluoride in it, by its data sheet' },
  });
  // Another flux for this one heat brings its caution with it, to be read before it is ready.
  const ready = await readiness(bench, heat.id, lots);
  const other = { ...ready, flux: { name: 'Paste flux', fluoride: 'yes' } };
  expect((await bench.move(`/heats/${heat.id}`, other).expect(409)).body.missing).toEqual([
    'read the cautions C3 (cautionsRead)',
  ]);
  const primed = await bench.move(`/heats/${heat.id}`, { ...other, cautionsRead: [...ready.cautionsRead, 'C3'] }).expect(200);
  expect(primed.body.flux).toMatchObject({ name: 'Paste flux', fluoride: 'yes', mayHoldFluoride: true });
  expect((await seen(bench, heat.id)).flux.says).toBe('Paste flux, 35 % borax; it holds fluoride: extraction on');
  await bench.move(`/heats/${heat.id}`, { from: 'primed', to: 'laid_out' }).expect(200);
  expect((await seen(bench, heat.id)).flux.name).toBe('Powder in the blue tin');
});

test('a paste brings its flux with it, and the caution where it may hold fluoride', async () => {
  const app = await startApp();
  const { bench, owner } = app;
  await setFlux(owner, { name: 'Powder in the blue tin', fluoride: 'no' });
  const paste = { code: 'easy_paste', form: 'paste', metalFraction: 0.7, solidusC: 671, liquidusC: 718 };
  const product = await addProduct(owner, paste);
  expect(product).toMatchObject({ fluxFluoride: 'unknown' });
  await receiveLot(owner, product.id, { quantityG: 5, useBy: '2031-12-01' });
  await aDrawer(app);
  const heats = pendantPlan.heats.map((heat, index) => (index === 0 ? { ...heat, solder: 'easy_paste' } : heat));
  const heat = await cutPiece(app, { plan: { heats } });
  expect(await seen(bench, heat.id)).toMatchObject({ hasC3: true, flux: { ofPaste: 'unknown', mayHoldFluoride: true } });
  await owner.patch(`/solder-products/${product.id}`, { fluxFluoride: 'no' }, 1).expect(200);
  expect(await seen(bench, heat.id)).toMatchObject({ hasC3: false, flux: { ofPaste: 'no', mayHoldFluoride: false } });

  const wire = await owner.patch(`/solder-products/${product.id}`, { form: 'wire', fluxFluoride: 'no' }, 2).expect(422);
  expect(wire.body.errors).toMatchObject([{ pointer: '/fluxFluoride', detail: 'Only paste brings a flux: leave it out.' }]);
  const unsaid = await owner.patch(`/solder-products/${product.id}`, { fluxFluoride: null }, 2).expect(422);
  expect(unsaid.body.errors).toMatchObject([{ pointer: '/fluxFluoride' }]);
  expect((await owner.patch(`/solder-products/${product.id}`, { form: 'wire' }, 2).expect(200)).body.fluxFluoride).toBeNull();
});
