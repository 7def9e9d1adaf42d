import { expect, onTestFinished, test } from 'vitest';
import { createPlanning } from '../../src/features/calculations/index.ts';
import type { SearchProgress } from '../../src/platform/db/search-tables.ts';
import type { PlanSearchAnswer, PlanSearchRequest } from '../../shared/sequencing/plan-search-request.ts';
import { searchPlan } from '../../shared/sequencing/search-plan.ts';
import { solderNeedG } from '../../shared/costing/solder-need.ts';
import { bench, pendant, solders } from '../support/pendant.ts';
import { unlikeProngs } from '../support/unlike-prongs.ts';

const request: PlanSearchRequest = { design: pendant, solders, bench };

function planningOn(threads: number) {
  const planning = createPlanning({ threads });
  onTestFinished(() => planning.close());
  return planning;
}

/** All but how long it took. */
const lasting = ({ stats: { elapsedMs: _elapsedMs, ...stats }, ...answer }: PlanSearchAnswer) => ({ ...answer, stats });

test('the same request has the same plan on one thread, on two, and without any', async () => {
  const here = searchPlan(request, { solderNeedG: solderNeedG(pendant, solders) });
  if (here.outcome === 'faults') throw new Error('the pendant has no fault');
  for (const threads of [1, 2]) {
    const planning = planningOn(threads);
    const answers = await Promise.all(['a', 'b', 'c'].map((personId) => planning.search({ personId }, request)));
    for (const answer of answers) expect(lasting(answer)).toEqual(lasting(here));
  }
});

test('a search that takes long lets one at once go beside it, tells how far it is, and ends with what it has when it is asked to', async () => {
  const planning = planningOn(1);
  const told: SearchProgress[] = [];
  let hasBegun = false;
  const long = planning.searchForLater('a', unlikeProngs(12), {
    onBegin: () => (hasBegun = true),
    onProgress: (progress) => told.push(progress),
  });
  await expect.poll(() => hasBegun).toBe(true);
  expect((await planning.search({ personId: 'a' }, request)).outcome).toBe('optimal');
  await expect.poll(() => told.length, { timeout: 20_000 }).toBeGreaterThan(2);
  long.end('what_it_has');
  const { stats, check, plan } = await long.answer;
  expect(stats.stoppedBy).toBe('host');
  expect(check!.heats).toHaveLength(plan!.heats.length);
  const spent = told.map(({ workUnits }) => workUnits);
  expect(spent).toEqual(spent.toSorted((a, b) => a - b));
  expect(told.every(({ workUnits, workUnitsAllowed }) => workUnits <= workUnitsAllowed)).toBe(true);
});

test('who no longer waits for an answer ends the search, running or waiting', async () => {
  const planning = planningOn(1);
  const gone = new AbortController();
  const running = planning.search({ personId: 'a', gone: gone.signal }, unlikeProngs(12));
  const waiting = planning.search({ personId: 'a', gone: gone.signal }, unlikeProngs(12));
  const next = planning.search({ personId: 'b' }, request);
  const both = Promise.allSettled([running, waiting]);
  await new Promise((resolve) => setTimeout(resolve, 300));
  gone.abort();
  for (const { status } of await both) expect(status).toBe('rejected');
  expect((await next).outcome).toBe('optimal');
});

test('what the engine refuses comes back from a thread as what it is', async () => {
  const planning = planningOn(1);
  const gasC = Number.NaN;
  const cold = { ...bench, torch: { powerW: 250, spreadMm: 10, gasC } };
  const outside = planning.search({ personId: 'a' }, { ...request, bench: cold });
  await expect(outside).rejects.toMatchObject({ slug: 'outside-model', extensions: { quantity: 'gasC', given: gasC } });
  const unknown = planning.search({ personId: 'a' }, { ...request, options: { keep: [{ joints: ['nose'], solder: 'tin' }] } });
  await expect(unknown).rejects.toMatchObject({ slug: 'invalid-fields' });
});
