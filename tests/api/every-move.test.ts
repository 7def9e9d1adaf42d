import { eq, type SQL } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import { test } from 'vitest';
import type { Thing } from '../../shared/lifecycles/lifecycles.ts';
import {
  benchTimes,
  commissions,
  heats,
  incidents,
  joints,
  payments,
  pieces,
  plans,
  quotes,
  solderLots,
} from '../../src/platform/db/tables.ts';
import type { ACCESS } from '../../src/platform/http/access-table.ts';
import { aPricedPendant, aSentQuote } from '../support/a-quote.ts';
import { issueMetal, planInUse, type Heat } from '../support/at-the-bench.ts';
import { holdToMachine, reading, ROLES, type Subject } from '../support/every-move.ts';
import { startApp, type Person, type TestApp } from '../support/start-app.ts';

/** A kind of which one record stands for all. */
function one(thing: Thing, route: keyof typeof ACCESS, path: string, put: Subject['put']): Subject[] {
  return [{ thing, route, path, put, allowed: reading(path) }];
}

/** One of everything that is moved over HTTP, in a piece of practice work, which every role knows. */
async function oneOfEverything(app: TestApp): Promise<Record<string, Subject[]>> {
  const { owner, bench } = app;
  const { commissionId, pieceId } = await aPricedPendant(app, { kind: 'teaching_piece' });
  const { plan, heats: laidOut } = await planInUse(bench, pieceId);
  await issueMetal(bench, pieceId);
  const quote = await aSentQuote(app, commissionId);
  const incident = (await bench.post('/incidents', { pieceId, kind: 'pit' }).expect(201)).body;
  const lot = (await owner.get('/solder-lots').expect(200)).body.items[0];
  const deposit = { commissionId, kind: 'deposit', how: 'cash', amount: { amountMinor: 100, currency: 'EUR' } };
  const paid = (await owner.post('/payments', deposit).expect(201)).body as { id: string };
  const times = await Promise.all(
    ROLES.map(async (ofRole) => {
      const body = { pieceId, operation: 'sawing', minutesByHand: 5 };
      return { ofRole, id: (await app[ofRole].post('/bench-times', body).expect(201)).body.id as string };
    }),
  );
  const setState = (table: SQLiteTable & { state: unknown }, where: SQL) => (state: string) => {
    app.db.update(table).set({ state }).where(where).run();
  };
  const jointOf = async (person: Person) => {
    const { joints: all } = (await person.get(`/pieces/${pieceId}`).expect(200)).body;
    return all.find(({ joint }: { joint: string }) => joint === 'bezel').allowedMoves as string[];
  };
  return {
    commission: one(
      'commission',
      'POST /commissions/:id/moves',
      `/commissions/${commissionId}`,
      setState(commissions, eq(commissions.id, commissionId)),
    ),
    quote_version: one(
      'quote_version',
      'POST /quotes/:id/moves',
      `/quotes/${quote.id}`,
      setState(quotes, eq(quotes.id, quote.id)),
    ),
    piece: [
      {
        thing: 'piece',
        route: 'POST /pieces/:id/moves',
        path: `/pieces/${pieceId}`,
        put: (state) => app.db.update(pieces).set({ state, stateBeforeAside: 'finishing' }).where(eq(pieces.id, pieceId)).run(),
        allowed: reading(`/pieces/${pieceId}`),
        // One set aside is told of the one state it goes back to.
        byHand: ({ from, to }) => from !== 'set_aside' || to === 'finishing',
      },
    ],
    plan_version: one('plan_version', 'POST /plans/:id/moves', `/plans/${plan.id}`, setState(plans, eq(plans.id, plan.id))),
    heat: one(
      'heat',
      'POST /heats/:id/moves',
      `/heats/${laidOut[0]!.id}`,
      setState(heats, eq(heats.id, (laidOut[0] as Heat).id)),
    ),
    joint: [
      {
        thing: 'joint',
        route: 'POST /pieces/:id/joints/:jointId/moves',
        path: `/pieces/${pieceId}/joints/bezel`,
        put: setState(joints, eq(joints.jointId, 'bezel')),
        allowed: jointOf,
        // To be placed, and what comes of it, are moves of its heat.
        byHand: ({ from, to }) => from !== 'placed' && to !== 'placed',
      },
    ],
    incident: one(
      'incident',
      'POST /incidents/:id/moves',
      `/incidents/${incident.id}`,
      setState(incidents, eq(incidents.id, incident.id)),
    ),
    lot: one('lot', 'POST /solder-lots/:id/moves', `/solder-lots/${lot.id}`, setState(solderLots, eq(solderLots.id, lot.id))),
    payment: one('payment', 'POST /payments/:id/moves', `/payments/${paid.id}`, (state) =>
      app.db
        .update(payments)
        .set({ state, receivedOn: state === 'due' ? null : '2031-05-05' })
        .where(eq(payments.id, paid.id))
        .run(),
    ),
    bench_time: times.map(({ ofRole, id }) => ({
      thing: 'bench_time',
      route: 'POST /bench-times/:id/moves',
      path: `/bench-times/${id}`,
      put: setState(benchTimes, eq(benchTimes.id, id)),
      allowed: reading(`/bench-times/${id}`),
      ofRole,
    })),
  };
}

test.each(['commission', 'quote_version', 'piece', 'plan_version', 'heat', 'joint', 'incident', 'lot', 'payment', 'bench_time'])(
  'over HTTP a %s is moved by every role, from every state to every state, as the machine form says',
  async (name) => {
    const app = await startApp();
    await holdToMachine(app, name, (await oneOfEverything(app))[name]!);
  },
);
