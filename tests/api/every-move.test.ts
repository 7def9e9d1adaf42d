import { eq, sql, type SQL } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import { expect, test } from 'vitest';
import type { Thing } from '../../shared/lifecycles/lifecycles.ts';
import {
  benchTimes,
  commissions,
  heats,
  incidents,
  joints,
  pieces,
  plans,
  quotes,
  solderLots,
} from '../../src/platform/db/tables.ts';
import { effectiveRoles } from '../../src/platform/http/actor.ts';
import { ACCESS, rolesLetIn } from '../../src/platform/http/access.ts';
import { aPricedPendant, aSentQuote } from '../support/a-quote.ts';
import { issueMetal, planInUse, type Heat } from '../support/at-the-bench.ts';
import { MACHINES, machineLets, type Asker, type MachineMove } from '../support/life-cycle-machine.ts';
import { startApp, type Person, type TestApp } from '../support/start-app.ts';

const ROLES = ['owner', 'bench', 'desk', 'student'] as const;
type RoleName = (typeof ROLES)[number];

/** One record of a kind, which can be put into any of its states. */
interface Subject {
  thing: Thing;
  route: keyof typeof ACCESS;
  path: string;
  put: (state: string) => void;
  /** The states this person is told the record may go to. */
  allowed: (person: Person) => Promise<string[]>;
  /** Which of the moves of the machine form are a person's own to ask for; all when absent. */
  byHand?: (move: MachineMove) => boolean;
  ofRole?: RoleName;
}

/** Asks for the states that somebody is told a record may go to. */
function reading(path: string): (person: Person) => Promise<string[]> {
  return async (person) => (await person.get(path).expect(200)).body.allowedMoves as string[];
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
  const one = (thing: Thing, route: keyof typeof ACCESS, path: string, put: Subject['put']): Subject[] => [
    { thing, route, path, put, allowed: reading(path) },
  ];
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

/** Whatever the request writes is taken back: every case begins at the same book. */
async function rolledBack<Answer>({ db }: TestApp, ask: () => Promise<Answer>): Promise<Answer> {
  db.run(sql`BEGIN`);
  try {
    return await ask();
  } finally {
    db.run(sql`ROLLBACK`);
  }
}

/** What the machine form makes of a move by somebody whose role may call the route. */
function wanted(move: MachineMove | undefined, asker: Asker): string {
  if (move === undefined) return 'move-not-allowed';
  return machineLets(move, asker) ? 'taken up' : 'forbidden';
}

/** A move that the life cycle lets through is made, or what it takes besides is missing. */
function found({ status, body }: { status: number; body: { type?: string } }): string {
  const slug = body.type?.split('/').at(-1) ?? '';
  if (status === 200 || (status === 409 && slug !== 'move-not-allowed' && slug !== 'moved-on') || status === 422)
    return 'taken up';
  return slug;
}

test.each(['commission', 'quote_version', 'piece', 'plan_version', 'heat', 'joint', 'incident', 'lot', 'bench_time'])(
  'over HTTP a %s is moved by every role, from every state to every state, as the machine form says',
  async (name) => {
    const app = await startApp();
    const { states, moves } = MACHINES.find(({ thing }) => thing === name)!;
    for (const { route, path, put, allowed, byHand = () => true, ofRole } of (await oneOfEverything(app))[name]!) {
      for (const role of ROLES) {
        const access = ACCESS[route];
        const letIn = access === 'anyone' || rolesLetIn(access as readonly RoleName[]).includes(role);
        const own = ofRole === undefined || ofRole === role;
        const asker: Asker = { name: role, roles: [...effectiveRoles([role])], tutor: role === 'owner', own };
        // Times are shown to their person and the owner: to others they are not there.
        const hidden = !own && role !== 'owner';
        for (const from of states) {
          const out = moves.filter((move) => move.from === from);
          if (letIn && !hidden) {
            const told = await rolledBack(app, () => (put(from), allowed(app[role])));
            const may = out.filter((move) => machineLets(move, asker) && byHand(move)).map(({ to }) => to);
            expect([role, from, told.toSorted()]).toEqual([role, from, may.toSorted()]);
          }
          for (const to of states) {
            const answer = await rolledBack(app, async () => (put(from), app[role].move(path, { from, to }, app.clock.now())));
            const lets = wanted(
              out.find((move) => move.to === to),
              asker,
            );
            expect([role, from, to, found(answer)]).toEqual([
              role,
              from,
              to,
              letIn ? (hidden ? 'not-found' : lets) : 'forbidden',
            ]);
          }
        }
      }
    }
  },
);
