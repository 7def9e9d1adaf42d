import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import supertest from 'supertest';
import { onTestFinished } from 'vitest';
import { buildApp, type App } from '../../src/app.ts';
import type { SampleStudio } from '../../src/features/samples/index.ts';
import { insertPerson } from '../../src/features/people/people.store.ts';
import type { Clock } from '../../src/platform/clock.ts';
import { openDb, type Db } from '../../src/platform/db/client.ts';
import type { Role } from '../../src/platform/db/json-columns.ts';
import { effectiveRoles, type Actor } from '../../src/platform/http/actor.ts';
import { newId } from '../../src/platform/ids.ts';

/** A clock that stands still until it is told to go on. */
export interface TestClock extends Clock {
  set(at: string): void;
  advance(by: { days?: number; hours?: number; minutes?: number; seconds?: number }): void;
}

export function testClock(at = '2031-05-05T08:00:00Z'): TestClock {
  let now = Date.parse(at);
  return {
    now: () => new Date(now),
    set: (to) => (now = Date.parse(to)),
    advance: ({ days = 0, hours = 0, minutes = 0, seconds = 0 }) =>
      (now += (((days * 24 + hours) * 60 + minutes) * 60 + seconds) * 1000),
  };
}

/** A person's own client of the listening server. */
export type Person = ReturnType<typeof client>;

export interface TestApp extends App {
  db: Db;
  clock: TestClock;
  baseUrl: string;
  owner: Person;
  bench: Person;
  desk: Person;
  student: Person;
  /** Nobody: no session, no token. */
  stranger: Person;
  actors: Record<Role, Actor>;
}

/**
 * A whole server on a real SQLite database with the real migrations, listening on loopback until the test is over.
 *
 * @param server what its sockets are given less time for than in the studio
 * @param trustedProxies servers in front, whose word on where a request came from counts
 * @param whenDone takes what closes it, where several tests share one
 */
export async function startApp({
  clock = testClock(),
  file = ':memory:',
  sampleStudio,
  server = {},
  trustedProxies = [],
  whenDone = onTestFinished,
}: {
  clock?: TestClock;
  file?: string;
  sampleStudio?: SampleStudio;
  server?: Partial<Pick<Server, 'headersTimeout' | 'requestTimeout' | 'timeout'>> & { connectionsCheckingInterval?: number };
  trustedProxies?: readonly string[];
  whenDone?: (close: () => Promise<void>) => void;
} = {}): Promise<TestApp> {
  const { db, close } = openDb(file, clock.now());
  const app = await buildApp({ db, clock }, { logLevel: 'silent', trustedProxies, ...(sampleStudio && { sampleStudio }) });
  Object.assign(app.http.server, server);
  await app.http.listen({ host: '127.0.0.1', port: 0 });
  whenDone(async () => {
    await app.http.close();
    close();
  });
  const { port } = app.http.server.address() as AddressInfo;
  const baseUrl = `http://127.0.0.1:${port}`;
  const actors = {} as Record<Role, Actor>;
  const person = (role: Role): Person => {
    const row = insertPerson(db, {
      id: newId(clock.now()),
      name: NAMES[role],
      roles: [role],
      tutor: role === 'owner',
      createdAt: clock.now().toISOString(),
    });
    actors[role] = {
      personId: row.id,
      name: row.name,
      roles: effectiveRoles([role]),
      tutor: row.tutor,
      deviceId: null,
      confirmed: null,
    };
    return client(baseUrl, app.services.keys.addToken(actors[role], { name: 'test' }).token);
  };
  return {
    ...app,
    db,
    clock,
    baseUrl,
    owner: person('owner'),
    bench: person('bench'),
    desk: person('desk'),
    student: person('student'),
    stranger: client(baseUrl, null),
    actors,
  };
}

const NAMES: Readonly<Record<Role, string>> = { owner: 'Flint', bench: 'Basalt', desk: 'Tamarisk', student: 'Pebble' };

function client(baseUrl: string, token: string | null) {
  const agent = supertest(baseUrl);
  const signed = (test: supertest.Test) => (token === null ? test : test.set('authorization', `Bearer ${token}`));
  return {
    get: (path: string) => signed(agent.get(`/api/v1${path}`)),
    post: (path: string, body?: object) => signed(agent.post(`/api/v1${path}`)).send(body),
    put: (path: string, body: object, version?: number) => withVersion(signed(agent.put(`/api/v1${path}`)), version).send(body),
    patch: (path: string, body: object, version?: number) =>
      withVersion(signed(agent.patch(`/api/v1${path}`)), version).send(body),
    delete: (path: string) => signed(agent.delete(`/api/v1${path}`)),
    /** A move, with its key and what a device adds to it. */
    move: (
      path: string,
      body: { from: string; to: string; [extra: string]: unknown },
      at: Date | string = '2031-05-05T08:00:00Z',
    ) =>
      signed(agent.post(`/api/v1${path}/moves`))
        .set('idempotency-key', `move-${(moveSeq += 1)}-${path.split('/').at(-1)}`)
        .send({ occurredAt: typeof at === 'string' ? at : at.toISOString(), deviceId: 'tablet-1', deviceSeq: moveSeq, ...body }),
  };
}

let moveSeq = 0;

function withVersion(test: supertest.Test, version: number | undefined): supertest.Test {
  return version === undefined ? test : test.set('if-match', `"${version}"`);
}
