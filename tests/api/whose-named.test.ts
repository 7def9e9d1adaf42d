import { afterAll, beforeAll, expect, test } from 'vitest';
import { STEPS, type StepKind } from '../../src/features/bench/bench-steps.schema.ts';
import { apiDocument, operationsOf, type Operation } from '../support/api-document.ts';
import { asking, pathOf, rolledBack, withoutIds, type Answer, type Asked } from '../support/ask-as.ts';
import { aPhoneJpeg } from '../support/pictures.ts';
import { soundBodies } from '../support/sound-bodies.ts';
import { twoOfEach, type Hand, type TwoOfEach } from '../support/two-of-each.ts';
import { groupOf, mayCall, thingsOf, TOLD, whoseIs } from '../support/whose-told.ts';
import { NAMED, WHOSE } from '../support/whose.ts';

let studio: TwoOfEach;
let operations: Operation[];
let bodies: Record<string, unknown[]>;
let jpeg: Buffer;
let ask: (token: string, asked: Asked) => Promise<Answer>;
let close: () => Promise<void>;

beforeAll(async () => {
  studio = await twoOfEach({ whenDone: (done) => (close = done) });
  operations = operationsOf(await apiDocument(studio.owner));
  bodies = await soundBodies(studio);
  jpeg = await aPhoneJpeg();
  ask = asking(studio);
});
afterAll(() => close());

/** No things ever had them. */
const unknown = (index: number): string => `01964e00-0000-7000-8000-00000000000${index}`;
const handNamed = (name: string): Hand => studio.hands.find((hand) => hand.name === name)!;

/** Members that name something of a piece or of a person; `also` does so at the labels of pieces alone. */
const NAMES = /^(piece|heat|plan|commission|incident|benchTime|person)Ids?$/;

test('what names a piece or a person beside the path, for who only learns, is in the table', () => {
  const named = operations.flatMap(({ route, parameters, body, form }) => {
    if (!mayCall('student', route) || ['nobody’s', 'the device’s', 'the studio’s'].includes(whoseIs(route))) return [];
    const members = Object.keys((body ?? form)?.properties ?? {});
    const asked = parameters.filter(({ in: where }) => where === 'query').map(({ name }) => name);
    const names = [...members, ...asked].filter((name) => NAMES.test(name));
    return names.length > 0 ? [[route, names.toSorted()] as const] : [];
  });
  const table = Object.entries(NAMED).map(([route, names]) => [route, names.toSorted()] as const);
  const byName = (lines: typeof table) => Object.fromEntries(lines.filter(([, names]) => names.every((name) => name !== 'also')));
  expect(byName(named)).toEqual(byName(table));
  for (const route of WHOSE['the studio’s'])
    expect([route, mayCall('student', route) && operationOf(route).parameters.some(({ name }) => NAMES.test(name))]).toEqual([
      route,
      false,
    ]);
});

const operationOf = (route: string): Operation => operations.find((one) => one.route === route)!;

/** The kind of thing that a member names. */
const KINDS: Readonly<Record<string, string>> = {
  pieceId: 'pieces',
  also: 'pieces',
  heatId: 'heats',
  heatIds: 'heats',
  planId: 'plans',
  commissionId: 'commissions',
  incidentId: 'incidents',
  benchTimeId: 'bench-times',
};

/** What a member names: of the practice piece that is worked, of the other one that is, or of nothing. */
function namedBy(member: string, of: 'practice' | 'other' | 'nothing', index: number): string {
  if (of === 'nothing') return unknown(index);
  const to = { practice: 'another student', other: 'student' }[of];
  if (member === 'personId') return handNamed(to).personId;
  const kind = KINDS[member]!;
  if (kind === 'bench-times') return handNamed(to).own[kind]!;
  // The second is worked: the piece, its plan, and the heat that is over.
  const [first, second = first] = studio[of][kind]!;
  return second!;
}

/** What is asked beside what is named. */
const BESIDE: Readonly<Record<string, object>> = {
  'POST /tokens': { name: 'spare' },
  'POST /incidents': { kind: 'pit' },
  'POST /photos': { showsPerson: 'false' },
  'POST /plan-searches': {},
  'POST /bench-times': { operation: 'sawing', minutesByHand: 10 },
};

const PLURAL = new Set(['heatIds', 'also']);

function requestOf({ route, method, path, form }: Operation, named: Readonly<Record<string, string>>): Asked {
  const to = pathOf({ path }, studio.practice['pieces']![0]!);
  if (method === 'GET') return { method, path: `${to}?${new URLSearchParams(named).toString()}` };
  const members = Object.entries(named).map(([name, id]) => [name, PLURAL.has(name) ? [id] : id] as const);
  const beside = route === 'POST /calibrations' ? { torchId: studio.ids['torches']![0] } : BESIDE[route];
  const body = { ...beside, ...Object.fromEntries(members) };
  return { method, path: to, body: form === undefined ? body : asForm(body) };
}

function asForm(fields: Readonly<Record<string, unknown>>): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(name, String(value));
  form.append('file', new Blob([new Uint8Array(jpeg)], { type: 'image/jpeg' }), 'bench.jpg');
  return form;
}

/** Every choice of some of them, and of none. */
const choices = (names: readonly string[]): string[][] =>
  names.reduce<string[][]>((all, name) => [...all, ...all.map((some) => [...some, name])], [[]]);

test.each(Object.entries(NAMED))('%s tells a student nothing of what it names, be it there or not', async (route, members) => {
  const operation = operationOf(route);
  const student = handNamed('another student');
  const asked = async (others: readonly string[], as: 'other' | 'nothing', beside: readonly string[]) => {
    const pairs = members
      .filter((member) => others.includes(member) || beside.includes(member))
      .map((member, index) => [member, namedBy(member, others.includes(member) ? as : 'practice', index)] as const);
    const answer = await rolledBack(studio, () => ask(student.token, requestOf(operation, Object.fromEntries(pairs))));
    return withoutIds(
      answer,
      pairs.map(([, id]) => id),
    ) as { status: number; text: string };
  };
  for (const others of choices(members).slice(1)) {
    for (const beside of [[], members]) {
      const hidden = await asked(others, 'other', beside);
      expect([others, beside, hidden]).toEqual([others, beside, await asked(others, 'nothing', beside)]);
      if (hidden.status === 200) expect(JSON.parse(hidden.text)).toEqual({ items: [], nextCursor: null });
    }
  }
});

/** Steps of each kind as they would be taken, but for what they name. */
const STEP_BODIES: Readonly<Record<StepKind, () => object>> = {
  move_heat: () => bodies['POST /heats/:id/moves']![0] as object,
  see_in_heat: () => bodies['POST /heats/:id/sightings']![0] as object,
  move_piece: () => bodies['POST /pieces/:id/moves']![0] as object,
  move_joint: () => ({ ...(bodies['POST /pieces/:id/joints/:jointId/moves']![0] as object), joint: 'bezel' }),
  move_bench_time: () => bodies['POST /bench-times/:id/moves']![0] as object,
  start_time: () => ({ operation: 'sawing' }),
  note_incident: () => ({ kind: 'pit' }),
  weigh_lot: () => ({ weighedG: 4, reason: 'counted' }),
  guess: () => ({ heat: 2, guesses: [{ joint: 'bezel', guess: 'solid' }] }),
  undo: () => ({ undoes: 'a-step-of-another' }),
};

test.each(Object.keys(STEPS) as StepKind[])('a step of a device, %s, tells nothing of what it names either', async (kind) => {
  const members = Object.keys(STEPS[kind].shape).filter((name) => NAMES.test(name));
  const student = handNamed('another student');
  const at = studio.clock.now().toISOString();
  const step = async (others: readonly string[], as: 'other' | 'nothing') => {
    const pairs = others.map((member, index) => [member, namedBy(member, as, index)] as const);
    const key = { do: kind, key: 'a-step-of-mine', occurredAt: at, deviceId: 'tablet-1', deviceSeq: 1 };
    const body = { sentAt: at, steps: [{ ...STEP_BODIES[kind](), ...key, ...Object.fromEntries(pairs) }] };
    const answer = await rolledBack(studio, () => ask(student.token, { method: 'POST', path: '/bench/steps', body }));
    const [{ status }] = (JSON.parse(answer.text) as { answers: [{ status: number }] }).answers;
    return {
      status,
      told: withoutIds(
        answer,
        pairs.map(([, id]) => id),
      ),
    };
  };
  for (const others of choices(members).slice(1)) {
    const hidden = await step(others, 'other');
    expect([404, 422]).toContain(hidden.status);
    expect([others, hidden]).toEqual([others, await step(others, 'nothing')]);
  }
});

/** Everything that can be read, of things that this person may be told of. */
function readsOf(hand: Hand): Asked[] {
  return operations
    .filter(({ method, route }) => method === 'GET' && mayCall(hand.role, route) && route !== 'GET /metrics')
    .flatMap(({ path, route, parameters }) => {
      const query = new URLSearchParams(route === 'GET /search' ? { text: 'pendant' } : {});
      if (parameters.some(({ name, schema }) => name === 'format' && schema.enum?.includes('html'))) query.set('format', 'html');
      if (parameters.some(({ name }) => name === 'limit')) query.set('limit', '200');
      const group = groupOf({ path });
      const mayKnow = thingsOf(studio, group, [hand.name]).filter(({ of }) => hand.role !== 'student' || of !== 'other');
      const ids = [...mayKnow.map(({ id }) => id), ...(mayKnow.length > 0 ? [] : (studio.ids[group] ?? []))];
      const paths = path.includes('{') ? ids.map((id) => pathOf({ path }, id)) : [path];
      return paths.map((one) => ({ method: 'GET', path: `${one}?${query.toString()}` }));
    });
}

/** By the kind of a thing, the route that says whose it is. */
const ONE_OF: Readonly<Record<string, string>> = {
  tokens: 'DELETE /tokens/:id',
  sessions: 'DELETE /sessions/:id',
  'plan-searches': 'GET /plan-searches/:id',
  calibrations: 'GET /calibrations/:id',
  'bench-times': 'GET /bench-times/:id',
  commissions: 'GET /commissions/:id',
  pieces: 'GET /pieces/:id',
  plans: 'GET /plans/:id',
  heats: 'GET /heats/:id',
  incidents: 'GET /incidents/:id',
  photos: 'GET /photos/:id',
};

test.each(['another student', 'another bench', 'another desk', 'another owner'])(
  'nothing that can be read names to %s what is not there for them',
  async (name) => {
    const hand = handNamed(name);
    const everybody = studio.hands.map((one) => one.name);
    const hidden = Object.entries(ONE_OF).flatMap(([group, route]) =>
      thingsOf(studio, group, everybody)
        .filter(({ of }) => TOLD[whoseIs(route)]!(of, hand) === 'not-found')
        .map(({ id }) => id),
    );
    expect(hidden.length > 0).toBe(hand.role !== 'owner');
    const reads = readsOf(hand);
    expect(reads.length).toBeGreaterThan(40);
    let told = 0;
    for (const asked of reads) {
      const { status, text } = await ask(hand.token, asked);
      told += Number(status === 200);
      expect([asked.path, status < 500, hidden.filter((id) => text.includes(id))]).toEqual([asked.path, true, []]);
    }
    expect(told).toBeGreaterThan(0.7 * reads.length);
  },
);
