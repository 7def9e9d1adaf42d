import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { startApp, type Person, type TestApp } from '../support/start-app.ts';

interface Offered {
  offer: string;
  says: string;
  requests: { method: 'POST' | 'PATCH'; path: string; headers: Record<string, string>; body: object }[];
}

const at = (time: string) => `2031-05-05T${time}:00.000Z`;

/** Everybody's times end before 16:00 in these. */
async function atTheBench(): Promise<TestApp & { pieceId: string }> {
  const app = await startApp();
  const piece = putPiece(app, await aCommission(app.desk));
  app.clock.set('2031-05-05T12:00:00Z');
  return { ...app, pieceId: piece.id };
}

async function take({ requests }: Offered, person: Person): Promise<void> {
  for (const { method, path, headers, body } of requests) {
    const short = path.replace('/api/v1', '');
    const sent = (method === 'POST' ? person.post(short, body) : person.patch(short, body)).set(headers);
    expect([short, (await sent).status]).toEqual([short, expect.toSatisfy((status: number) => status === 200 || status === 201)]);
  }
}

/** What is in the book, as from–to operation; a timer goes on to "…". */
async function spans(person: Person): Promise<string[]> {
  const { items } = (await person.get('/bench-times').expect(200)).body;
  return (items as { startedAt: string; stoppedAt: string | null; operation: string }[])
    .map(({ startedAt, stoppedAt, operation }) => `${startedAt.slice(11, 16)}–${stoppedAt?.slice(11, 16) ?? '…'} ${operation}`)
    .toSorted();
}

/** Kept first, asked second; what each offer makes of the two. */
const CASES = {
  'one after the other': {
    kept: ['10:00', '11:00'],
    asked: ['10:30', '11:30'],
    cut_the_first: ['10:00–10:30 kept', '10:30–11:30 asked'],
    cut_the_second: ['10:00–11:00 kept', '11:00–11:30 asked'],
    split: ['10:00–10:45 kept', '10:45–11:30 asked'],
  },
  'one before the other': {
    kept: ['10:30', '11:30'],
    asked: ['10:00', '11:00'],
    cut_the_first: ['10:00–10:30 asked', '10:30–11:30 kept'],
    cut_the_second: ['10:00–11:00 asked', '11:00–11:30 kept'],
    split: ['10:00–10:45 asked', '10:45–11:30 kept'],
  },
  'one inside the other': {
    kept: ['10:00', '11:30'],
    asked: ['10:30', '11:00'],
    cut_the_first: ['10:00–10:30 kept', '10:30–11:00 asked'],
    cut_the_second: null,
    split: ['10:00–10:30 kept', '10:30–11:00 asked', '11:00–11:30 kept'],
  },
  'one round the other': {
    kept: ['10:30', '11:00'],
    asked: ['10:00', '11:30'],
    cut_the_first: ['10:00–10:30 asked', '10:30–11:00 kept'],
    cut_the_second: null,
    split: ['10:00–10:30 asked', '10:30–11:00 kept', '11:00–11:30 asked'],
  },
  'one in a timer that runs': {
    kept: ['10:00', null],
    asked: ['10:30', '11:00'],
    cut_the_first: ['10:00–10:30 kept', '10:30–11:00 asked'],
    cut_the_second: null,
    split: ['10:00–10:30 kept', '10:30–11:00 asked', '11:00–… kept'],
  },
  'a timer that was on already': {
    kept: ['10:30', '11:00'],
    asked: ['10:45', null],
    cut_the_first: ['10:30–10:45 kept', '10:45–… asked'],
    cut_the_second: ['10:30–11:00 kept', '11:00–… asked'],
    split: ['10:30–10:52 kept', '10:52–… asked'],
  },
} as const;

const everyWay = Object.entries(CASES).flatMap(([name, { kept, asked, ...ways }]) =>
  Object.entries(ways).map(([offer, after]) => ({ name, offer, kept, asked, after })),
);

test.each(everyWay)('$name: $offer is offered ready to be sent', async ({ offer, kept, asked, after }) => {
  const { bench, pieceId } = await atTheBench();
  const body = ([start, stop]: readonly [string, string | null], operation: string) => ({
    pieceId,
    operation,
    startedAt: at(start),
    ...(stop === null ? {} : { stoppedAt: at(stop) }),
  });
  await bench.post('/bench-times', body(kept, 'kept')).expect(201);
  const refused = (await bench.post('/bench-times', body(asked, 'asked')).expect(409)).body;
  const found = (refused.offers as Offered[]).find((each) => each.offer === offer);
  if (after === null) {
    expect(found).toBeUndefined();
    return;
  }
  expect(found!.says).toMatch(/\.$/);
  await take(found!, bench);
  expect(await spans(bench)).toEqual(after);
});

test('a timer that is stopped into another time, and a time that is moved into one, are offered the same', async () => {
  const { bench, pieceId } = await atTheBench();
  const first = { pieceId, operation: 'kept', startedAt: at('10:00'), stoppedAt: at('11:00') };
  await bench.post('/bench-times', first).expect(201);
  const second = { ...first, operation: 'asked', startedAt: at('11:00'), stoppedAt: at('11:30') };
  const { id } = (await bench.post('/bench-times', second).expect(201)).body;
  const moved = (await bench.patch(`/bench-times/${id}`, { startedAt: at('10:40') }, 1).expect(409)).body;
  await take(
    moved.offers.find((each: Offered) => each.offer === 'split'),
    bench,
  );
  expect(await spans(bench)).toEqual(['10:00–10:50 kept', '10:50–11:30 asked']);
});
