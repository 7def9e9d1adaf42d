import { sql } from 'drizzle-orm';
import { expect } from 'vitest';
import type { Thing } from '../../shared/lifecycles/lifecycles.ts';
import { effectiveRoles } from '../../src/platform/http/actor.ts';
import { rolesLetIn } from '../../src/platform/http/access.ts';
import { ACCESS } from '../../src/platform/http/access-table.ts';
import { MACHINES, machineLets, type Asker, type MachineMove } from './life-cycle-machine.ts';
import type { Person, TestApp } from './start-app.ts';

export const ROLES = ['owner', 'bench', 'desk', 'student'] as const;
type RoleName = (typeof ROLES)[number];

/** One record of a kind, which can be put into any of its states. */
export interface Subject {
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
export function reading(path: string): (person: Person) => Promise<string[]> {
  return async (person) => (await person.get(path).expect(200)).body.allowedMoves as string[];
}

/**
 * Moves each of some records of a kind by every role from every state to every state, over HTTP, and holds the answers and what is
 * told to be allowed to the machine form. A role that may not call the route has no move in it.
 */
export async function holdToMachine(app: TestApp, name: string, subjects: readonly Subject[]): Promise<void> {
  const { states, moves } = MACHINES.find(({ thing }) => thing === name)!;
  expect(subjects.length).toBeGreaterThan(0);
  for (const { route, path, put, allowed, byHand = () => true, ofRole } of subjects) {
    for (const role of ROLES) {
      const access = ACCESS[route];
      const letIn = access === 'anyone' || rolesLetIn(access as readonly RoleName[]).includes(role);
      const own = ofRole === undefined || ofRole === role;
      const asker: Asker = { name: role, roles: [...effectiveRoles([role])], tutor: role === 'owner', own };
      // Times are shown to their person and the owner: to others they are not there.
      const hidden = !own && role !== 'owner';
      for (const from of states) {
        const out = moves.filter((move) => move.from === from);
        const may = out.filter((move) => machineLets(move, asker) && byHand(move)).map(({ to }) => to);
        if (!letIn) expect([role, from, may]).toEqual([role, from, []]);
        if (letIn && !hidden) {
          const told = await rolledBack(app, () => (put(from), allowed(app[role])));
          expect([role, from, told.toSorted()]).toEqual([role, from, may.toSorted()]);
        }
        for (const to of states) {
          const answer = await rolledBack(app, async () => (put(from), app[role].move(path, { from, to }, app.clock.now())));
          const lets = wanted(
            out.find((move) => move.to === to),
            asker,
          );
          expect([role, from, to, found(answer)]).toEqual([role, from, to, letIn ? (hidden ? 'not-found' : lets) : 'forbidden']);
        }
      }
    }
  }
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
