import { setImmediate as nextTurn } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { FairQueue } from '../../src/platform/workers/fair-queue.ts';

/** Work that ends when it is told to, and notes when it began. */
function aBench(limits: Partial<ConstructorParameters<typeof FairQueue>[0]> = {}) {
  const queue = new FairQueue({ places: 1, mostWaiting: 5, mostWaitingEach: 3, ...limits });
  const began: string[] = [];
  const ends = new Map<string, () => void>();
  const enter = (work: string, signal = new AbortController().signal) =>
    queue.enter(
      work[0]!,
      () => {
        began.push(work);
        return new Promise<string>((resolve) => ends.set(work, () => resolve(`${work} is done`)));
      },
      signal,
    );
  const end = async (work: string) => {
    ends.get(work)!();
    await nextTurn();
  };
  return { queue, began, enter, end };
}

test('work is done one after the other, each answered with its own', async () => {
  const { enter, end, began } = aBench();
  const answers = [enter('a1'), enter('b1')];
  await nextTurn();
  expect(began).toEqual(['a1']);
  await end('a1');
  await end('b1');
  expect(await Promise.all(answers)).toEqual(['a1 is done', 'b1 is done']);
});

test('who was served longest ago comes first, however much another has waiting', async () => {
  const { enter, end, began } = aBench();
  const answers = ['a1', 'a2', 'a3', 'b1', 'b2', 'c1'].map((work) => enter(work));
  await nextTurn();
  for (const work of ['a1', 'b1', 'c1', 'a2', 'b2', 'a3']) await end(work);
  expect(began).toEqual(['a1', 'b1', 'c1', 'a2', 'b2', 'a3']);
  await Promise.all(answers);
});

test('one person has one place, also where others are free', async () => {
  const { enter, end, began } = aBench({ places: 3 });
  const answers = [enter('a1'), enter('a2'), enter('b1')];
  await nextTurn();
  expect(began).toEqual(['a1', 'b1']);
  await end('a1');
  expect(began).toEqual(['a1', 'b1', 'a2']);
  await end('a2');
  await end('b1');
  await Promise.all(answers);
});

test('past the limits it says so: of one person, and of all together', async () => {
  const { enter, end, queue } = aBench();
  const answers = ['a1', 'a2', 'a3', 'a4'].map((work) => enter(work));
  await nextTurn();
  const refused = { slug: 'too-many-requests', message: expect.stringContaining('3 of yours wait already') };
  expect(() => queue.holdRoom('a')).toThrow(expect.objectContaining(refused));
  await expect(enter('a5')).rejects.toMatchObject(refused);
  answers.push(enter('b1'), enter('c1'));
  await expect(enter('d1')).rejects.toMatchObject({ message: expect.stringContaining('5 wait already') });
  for (const work of ['a1', 'b1', 'c1', 'a2', 'a3', 'a4']) await end(work);
  expect(await Promise.all(answers)).toHaveLength(6);
  queue.holdRoom('a');
});

test('who goes away while waiting leaves the place to others; work that fails too', async () => {
  const { enter, end, began, queue } = aBench();
  const first = enter('a1');
  const gone = new AbortController();
  const left = enter('b1', gone.signal);
  const third = enter('c1');
  await nextTurn();
  gone.abort(new Error('gone'));
  await expect(left).rejects.toThrow('gone');
  await end('a1');
  await end('c1');
  expect(began).toEqual(['a1', 'c1']);
  expect(await Promise.all([first, third])).toEqual(['a1 is done', 'c1 is done']);
  const failing = queue.enter('d', () => Promise.reject(new Error('no flame')), new AbortController().signal);
  await expect(failing).rejects.toThrow('no flame');
  const after = enter('e1');
  await nextTurn();
  await end('e1');
  expect(await after).toBe('e1 is done');
});
