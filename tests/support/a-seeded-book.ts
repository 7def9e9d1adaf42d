import { mainJob } from '../../seed/main-job.ts';
import { seedStudio } from '../../seed/seed.ts';
import { startApp, testClock, type TestApp } from './start-app.ts';
import { aStockedDrawer } from './stocked.ts';

/**
 * The invented studio of the demo, with its main job done and with what its drawer lacks there.
 *
 * @param whenDone takes what closes it
 */
export async function aSeededBook(whenDone: (close: () => Promise<void>) => void): Promise<TestApp> {
  const clock = testClock();
  const today = clock.now().toISOString();
  const app = await startApp({ clock, whenDone });
  let hasBegun = false;
  await seedStudio(app.db, app.services, {
    now: () => clock.now(),
    to: (at) => {
      // Back to the beginning, and from there never back again.
      if (!hasBegun || at > clock.now()) clock.set(at.toISOString());
      hasBegun = true;
    },
    advance: (minutes) => clock.advance({ minutes }),
    letGo: () => clock.set(today),
  });
  await mainJob(app.services, app.actors.owner);
  const { items } = (await app.owner.get('/solder-products').expect(200)).body as { items: { id: string; code: string }[] };
  await aStockedDrawer(app.owner, items.find(({ code }) => code === 'medium-sheet')!.id);
  return app;
}
