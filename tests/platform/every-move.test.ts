import { describe, expect, test } from 'vitest';
import { findMove, LIFECYCLES, type Mover } from '../../shared/lifecycles/lifecycles.ts';
import type { Role } from '../../src/platform/db/json-columns.ts';
import type { Actor } from '../../src/platform/http/actor.ts';
import { allowedMoves, holdToLifecycle } from '../../src/platform/http/moves.ts';
import { Problem } from '../../src/platform/http/problem.ts';
import { MACHINES, machineLets, THINGS, type Asker } from '../support/life-cycle-machine.ts';

const NOW = new Date('2031-05-05T08:00:00Z');

/** Every set of roles, with what each role includes (owner all others, bench student), with and without the tutor's mark. */
const ASKERS: Asker[] = (
  [
    ['owner', ['owner', 'bench', 'desk', 'student']],
    ['bench', ['bench', 'student']],
    ['desk', ['desk']],
    ['student', ['student']],
    ['bench and desk', ['bench', 'student', 'desk']],
    ['desk and student', ['desk', 'student']],
    ['no role', []],
  ] as const
).flatMap(([name, roles]) =>
  [true, false].flatMap((tutor) =>
    [true, false].map((own) => ({ name: `${name}${tutor ? ', tutor' : ''}${own ? ', own' : ''}`, roles, tutor, own })),
  ),
);

const actorOf = ({ name, roles, tutor }: Asker): Actor => ({
  personId: 'somebody',
  name,
  roles: new Set(roles as Role[]),
  tutor,
  deviceId: null,
  confirmed: null,
});

/** What is asked, as one word. */
function answer(ask: () => unknown): string {
  try {
    ask();
    return 'allowed';
  } catch (error) {
    if (error instanceof Problem) return error.slug;
    throw error;
  }
}

test('the machine form and the code know the same things', () => {
  expect(MACHINES.map(({ thing }) => thing).toSorted()).toEqual(THINGS.toSorted());
  expect(MACHINES.flatMap(({ moves }) => moves).length).toBeGreaterThan(120);
});

describe.each(MACHINES)('every move of a $thing', ({ thing, states, moves }) => {
  const cases = states.flatMap((from) =>
    states.map((to) => ({ from, to, move: moves.find((m) => m.from === from && m.to === to) })),
  );

  test('its states are those of the machine form, the first of them first', () => {
    expect([...LIFECYCLES[thing].states]).toEqual(states);
  });

  test('from every state to every state it is a move exactly where the machine form has one', () => {
    for (const { from, to, move } of cases)
      expect([from, to, findMove(thing, from, to) !== undefined]).toEqual([from, to, move !== undefined]);
  });

  test('it is for exactly those whom the machine form names, with its condition and its effect in the same words', () => {
    for (const { from, to, who, onlyIf, effects } of moves) {
      const move = findMove(thing, from, to)!;
      expect([from, to, new Set<Mover>(move.who)]).toEqual([from, to, who]);
      const [first] = onlyIf;
      expect(move.guard === undefined).toBe(first === undefined);
      // Two lines of one move are one in code; its words hold those of both.
      for (const words of onlyIf) for (const word of words.split(', or ')) expect(move.onlyIf).toContain(word.trim());
      for (const words of effects) expect(move.effect).toBe(words);
    }
  });

  test.each(ASKERS)('$name is let, refused and told what else may be done as the machine form says', (asker) => {
    const actor = actorOf(asker);
    for (const state of states) {
      const allowed = moves.filter((move) => move.from === state && machineLets(move, asker)).map(({ to }) => to);
      expect([state, allowedMoves(thing, actor, { state, own: asker.own }).toSorted()]).toEqual([state, allowed.toSorted()]);
    }
    for (const { from, to, move } of cases) {
      const sent = { from, to, occurredAt: NOW.toISOString() };
      const found = answer(() => holdToLifecycle(thing, actor, { state: from, sent, own: asker.own, now: NOW }));
      const wanted = move === undefined ? 'move-not-allowed' : machineLets(move, asker) ? 'allowed' : 'forbidden';
      expect([from, to, found]).toEqual([from, to, wanted]);
      // Whoever saw another state is told of the state it is in, whatever they ask for.
      for (const seen of states.filter((one) => one !== from)) {
        const late = answer(() =>
          holdToLifecycle(thing, actor, { state: from, sent: { ...sent, from: seen }, own: asker.own, now: NOW }),
        );
        expect([from, to, seen, late]).toEqual([from, to, seen, 'moved-on']);
      }
    }
  });
});
