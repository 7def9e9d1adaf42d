import { afterAll, beforeAll, expect, test } from 'vitest';
import { finerRulesOf } from '../../src/platform/http/finer-rules.ts';
import { incidents, jointGuesses } from '../../src/platform/db/tables.ts';
import { newId } from '../../src/platform/ids.ts';
import { apiDocument, operationsOf, type Operation } from '../support/api-document.ts';
import { asking, outcomeOf, pathOf, rolledBack, withoutIds, type Answer, type Asked } from '../support/ask-as.ts';
import { soundBodies } from '../support/sound-bodies.ts';
import { ROLES, twoOfEach, type Hand, type TwoOfEach } from '../support/two-of-each.ts';
import { groupOf, mayCall, nameOf, thingsOf, TOLD, whoseIs, type Thing } from '../support/whose-told.ts';
import { WHOSE, type Whose } from '../support/whose.ts';

let studio: TwoOfEach;
let operations: Operation[];
let bodies: Record<string, unknown[]>;
let ask: (token: string, asked: Asked) => Promise<Answer>;
let close: () => Promise<void>;

beforeAll(async () => {
  studio = await twoOfEach({ whenDone: (done) => (close = done) });
  operations = operationsOf(await apiDocument(studio.owner));
  bodies = { ...(await soundBodies(studio)), ...OWN_BODIES };
  ask = asking(studio);
});
afterAll(() => close());

/** Where those of the small studio are for other roles, or ask for more. */
const OWN_BODIES: Readonly<Record<string, unknown[]>> = {
  'PATCH /photos/:id': [{ caption: 'The bezel' }],
  'POST /incidents/:id/moves': [
    {
      from: 'explained',
      to: 'put_right',
      minutesLost: 5,
      solderUsedG: 0,
      how: 'filled',
      occurredAt: '2031-05-05T08:00:00Z',
      deviceId: 'tablet-1',
      deviceSeq: 1,
    },
  ],
  'POST /plans/:id/guesses': [{ heat: 2, guesses: [{ joint: 'bezel', guess: 'solid' }] }],
};

/** No thing ever had it. */
const UNKNOWN = '01964e00-0000-7000-8000-000000000000';

const operationOf = (route: string): Operation => operations.find((one) => one.route === route)!;
const bodyOf = ({ route, form }: Operation): unknown => (form === undefined ? bodies[route]?.[0] : undefined);

/** Of each role one, and a second where they have things of their own. */
const ASKERS = new Set(['owner', 'another owner', 'bench', 'another bench', 'desk', 'student', 'another student']);
const WHOSE_THINGS = ['owner', 'bench', 'student'];

function askers(route: string): Hand[] {
  return studio.hands.filter(({ name, role }) => ASKERS.has(name) && mayCall(role, route));
}

test('the document names exactly the routes of the table, each once', () => {
  const routes = [...operations.map(({ route }) => route), 'GET /openapi.json'];
  expect(routes.toSorted()).toEqual(Object.values<readonly string[]>(WHOSE).flat().toSorted());
});

test('what is nobody’s takes no id, and what is not everybody’s is told on the page of roles', () => {
  for (const route of WHOSE['nobody’s']) expect(route).not.toContain('/:id');
  const untold = Object.entries<readonly string[]>(WHOSE)
    .filter(([whose]) => !['nobody’s', 'the studio’s'].includes(whose))
    .flatMap(([, routes]) => routes.filter((route) => finerRulesOf(route).length === 0));
  expect(untold).toEqual([]);
});

/** What a request may bring along beside what it asks for: none of it may tell what is there from what never was. */
function brought({ method, body: schema }: Operation, kept: Record<string, unknown>): Partial<Asked>[] {
  const headers: Partial<Asked>[] = [
    {},
    { headers: {} },
    { headers: { 'if-match': '"999"', 'if-none-match': '*' } },
    { headers: { 'if-match': '*', 'if-none-match': '"1"', confirm: '/minutesByHand', 'confirm-reason': 'looked again' } },
  ];
  if (method === 'GET') return [...headers, { method: 'HEAD' }];
  const names = Object.keys(schema?.properties ?? {}).filter((name) => name in kept);
  const asKept = names.map((name) => ({ body: { [name]: kept[name] } }));
  return [...headers, { headers: { 'idempotency-key': 'no' } }, { body: {} }, { body: '{' }, ...asKept];
}

/** A thing as the owner reads it. */
async function keptOf(operation: Operation, { id }: Thing): Promise<Record<string, unknown>> {
  const { status, text } = await ask(studio.ownerToken, { method: 'GET', path: `/${groupOf(operation)}/${id}` });
  return status === 200 ? (JSON.parse(text) as Record<string, unknown>) : {};
}

/** Whose an incident is counts once it is explained, and after. */
function putIncidents(route: string): void {
  if (route === 'PATCH /incidents/:id') studio.db.update(incidents).set({ state: 'put_right' }).run();
  if (route === 'POST /incidents/:id/moves') studio.db.update(incidents).set({ state: 'explained', likelyCause: 'gap' }).run();
}

const BY_ID = Object.entries(TOLD).flatMap(([whose, told]) =>
  WHOSE[whose as Whose].filter((route) => route.includes('/:id')).map((route) => ({ route, told })),
);

test.each(BY_ID)('$route: somebody’s own, another’s, and what never was', async ({ route, told }) => {
  const operation = operationOf(route);
  const about = (id: string, more: Partial<Asked> = {}): Asked => ({
    method: operation.method,
    path: pathOf(operation, id),
    body: bodyOf(operation),
    headers: { 'if-match': '"1"' },
    ...more,
  });
  const things = thingsOf(studio, groupOf(operation), WHOSE_THINGS).filter(
    ({ of }, index, all) => all.findIndex((other) => other.of === of) === index,
  );
  expect(things.length).toBeGreaterThan(1);
  const unknown = new Map<string, unknown>();
  for (const thing of things) {
    const { id, of } = thing;
    for (const hand of askers(route)) {
      const expected = told(of, hand);
      await rolledBack(studio, async () => {
        putIncidents(route);
        const asked = [hand.name, 'of', nameOf(of)];
        expect([...asked, outcomeOf(await ask(hand.token, about(id)))]).toEqual([...asked, expected]);
      });
      if (expected !== 'not-found') continue;
      for (const more of brought(operation, await keptOf(operation, thing))) {
        const key = JSON.stringify([hand.role, more]);
        if (!unknown.has(key)) unknown.set(key, withoutIds(await ask(hand.token, about(UNKNOWN, more)), [UNKNOWN]));
        expect([more, withoutIds(await ask(hand.token, about(id, more)), [id])]).toEqual([more, unknown.get(key)]);
      }
    }
  }
});

/** They work for long, outside of the book. */
const NOT_ASKED = new Set(['POST /backups', 'POST /backups/:id/checks', 'POST /exports']);

test.each(ROLES)('what is the studio’s is told to a %s as to any other', async (role) => {
  const [one, other] = studio.hands.filter((hand) => hand.role === role) as [Hand, Hand];
  const counted = { taken: 0, asked: 0 };
  for (const route of WHOSE['the studio’s']) {
    const operation = operationOf(route);
    const group = groupOf(operation);
    const id = studio.ids[group]?.[0] ?? UNKNOWN;
    if (NOT_ASKED.has(route) || !mayCall(role, route)) continue;
    const asked: Asked = {
      method: operation.method,
      path: pathOf(operation, id),
      body: bodyOf(operation),
      headers: { 'if-match': '"1"' },
    };
    const answers: number[] = [];
    for (const { token } of [one, other]) answers.push((await rolledBack(studio, () => ask(token, asked))).status);
    expect([route, answers[1]]).toEqual([route, answers[0]]);
    counted.asked += 1;
    counted.taken += Number(answers[0]! < 300);
  }
  // Most is asked as it would be taken: a refusal that is the same for both says less.
  expect(counted.taken).toBeGreaterThan(0.7 * counted.asked);
});

/** As of the bench hand, whose the named thing is, so that the other one does not know of it; else of the studio or of practice. */
function keyed(operation: Operation, hand: Hand): Asked {
  const group = groupOf(operation);
  const id = hand.own[group] ?? studio.ids[group]?.[0] ?? UNKNOWN;
  return { method: 'POST', path: pathOf(operation, id), body: bodyOf(operation) };
}

test.each(['bench', 'owner'])(
  'another %s who sends the same under the same Idempotency-Key gets no answer of theirs',
  async (role) => {
    const [one, other] = studio.hands.filter((hand) => hand.role === role) as [Hand, Hand];
    const asked = operations.filter(
      ({ method, route }) => method === 'POST' && !NOT_ASKED.has(route) && mayCall(role, route) && !UNHELD.has(whoseIs(route)),
    );
    let done = 0;
    for (const operation of asked) {
      const sent = keyed(operation, one);
      const bySecond = (key: string) =>
        rolledBack(studio, async () => {
          const first = await ask(one.token, { ...sent, headers: { 'idempotency-key': 'one-key-of-two' } });
          return { first, second: await ask(other.token, { ...sent, headers: { 'idempotency-key': key } }) };
        });
      const { first, second } = await bySecond('one-key-of-two');
      if (first.status >= 300 || first.text === '') continue;
      done += 1;
      // Alike only where it would be without a key too: what was computed, not what was kept.
      const alike = second.text === first.text;
      const expected = alike ? (await bySecond('a-key-of-its-own')).second.text : second.text;
      expect([operation.route, second.text]).toEqual([operation.route, expected]);
      expect(second.text).not.toContain('idempotency-key-reused');
    }
    expect(done).toBeGreaterThan(20);
  },
);

/** The version that somebody changes, as they read it. */
async function versionRead({ token }: Hand, { method, path }: Operation): Promise<Record<string, string>> {
  if (method !== 'PUT') return {};
  const { headers } = await ask(token, { method: 'GET', path });
  return { 'if-match': headers['etag']! };
}

/** Computed, or of a browser: nobody's answer is kept there. */
const UNHELD: ReadonlySet<string> = new Set(['nobody’s', 'the device’s']);

test.each(WHOSE['one’s own'])('%s is about who asks, and about nobody else', async (route) => {
  const operation = operationOf(route);
  const { method, path } = operation;
  for (const hand of askers(route)) {
    await rolledBack(studio, async () => {
      const headers = await versionRead(hand, operation);
      const { status, text } = await ask(hand.token, { method, path, headers, body: bodyOf(operation) });
      expect([hand.name, status < 300 || (route === 'POST /pins' && hand.role === 'desk')]).toEqual([hand.name, true]);
      const named = studio.hands.filter(({ personId }) => text.includes(personId)).map(({ name }) => name);
      expect(named.filter((name) => name !== hand.name)).toEqual([]);
    });
  }
});

test('what somebody chooses for themselves is chosen for nobody else', async () => {
  const read = async () => {
    const told: [string, string][] = [];
    for (const { name, token } of studio.hands)
      told.push([name, (await ask(token, { method: 'GET', path: '/preferences' })).text]);
    return told;
  };
  const before = await read();
  const chooser = studio.hands.find(({ name }) => name === 'bench')!;
  const operation = operationOf('PUT /preferences');
  const { method, path } = operation;
  const headers = await versionRead(chooser, operation);
  const after = await rolledBack(studio, async () => {
    expect((await ask(chooser.token, { method, path, headers, body: bodyOf(operation) })).status).toBe(200);
    return read();
  });
  const changed = after.filter(([name, text]) => text !== before.find(([other]) => other === name)![1]).map(([name]) => name);
  expect(changed).toEqual([chooser.name]);
});

test('what a student guessed of a plan is shown to them and to the bench, not to another student', async () => {
  const planId = studio.practice['plans']![0]!;
  const guesser = studio.hands.find(({ name }) => name === 'student')!;
  const at = studio.clock.now();
  const shownTo = await rolledBack(studio, async () => {
    const guess = { personId: guesser.personId, planId, heat: 2, joint: 'bezel', guess: 'solid', predicted: 'runs' } as const;
    studio.db
      .insert(jointGuesses)
      .values({ ...guess, id: newId(at), at: at.toISOString() })
      .run();
    const names: string[] = [];
    for (const { name, token } of askers('GET /plans/:id/guesses')) {
      const { text } = await ask(token, { method: 'GET', path: `/plans/${planId}/guesses` });
      if ((JSON.parse(text) as { guesses: unknown[] }).guesses.length > 0) names.push(name);
    }
    return names;
  });
  expect(shownTo).toEqual(['owner', 'another owner', 'bench', 'another bench', 'student']);
});
