import { describe, expect, test } from 'vitest';
import { findMove, LIFECYCLES, moves, type Lifecycle, type Thing } from '../../../shared/lifecycles/lifecycles.ts';

const things: [Thing, Lifecycle][] = Object.entries(LIFECYCLES) as [Thing, Lifecycle][];

test('the book knows the life of sixteen things', () => {
  expect(things).toHaveLength(16);
});

describe.each(things)('%s', (thing, { states, moves: all }) => {
  test('moves run between its states only', () => {
    expect(all.length).toBeGreaterThan(0);
    expect(new Set(states).size).toBe(states.length);
    for (const { from, to } of all) {
      for (const state of [...from, to]) expect(states).toContain(state);
      expect(from).not.toContain(to);
    }
  });

  test('every state can be reached from the first', () => {
    const reached = new Set([states[0]!]);
    for (const state of reached) for (const { to } of moves(thing, state)) reached.add(to);
    expect([...reached].toSorted()).toEqual([...states].toSorted());
  });

  test('two states have at most one move between them, and findMove() finds it', () => {
    for (const state of states) {
      const out = moves(thing, state);
      expect(new Set(out.map(({ to }) => to)).size).toBe(out.length);
      for (const move of out) expect(findMove(thing, state, move.to)).toBe(move);
    }
  });

  test('someone may make every move, and a guard has an id exactly when it has words', () => {
    for (const { who, guard, onlyIf } of all) {
      expect(who.length).toBeGreaterThan(0);
      expect(new Set(who).size).toBe(who.length);
      expect(guard === undefined).toBe(onlyIf === undefined);
      if (guard !== undefined) expect(guard).toMatch(/^[a-z]+(-[a-z]+)*$/);
    }
  });
});

test('findMove() and moves() know nothing outside the table', () => {
  expect(findMove('commission', 'handed_over', 'on_bench')).toBeUndefined();
  expect(findMove('quote_version', 'sent', 'sketch')).toBeUndefined();
  expect(moves('lot', 'melted')).toEqual([]);
});

// The ends of a life, as the trade tells them: what is over stays over.
test.each([
  ['commission', ['turned_down', 'settled', 'called_off']],
  ['quote_version', ['binned', 'declined', 'lapsed', 'replaced', 'withdrawn']],
  ['piece', ['given', 'scrapped']],
  ['heat', ['cleared', 'spoilt', 'skipped']],
  ['joint', []],
  ['lot', ['finished', 'written_off']],
  ['pickle_bath', ['gone']],
  ['bench_time', ['locked']],
  ['plan_search', ['done', 'stopped', 'interrupted', 'failed']],
] as const)('a %s has ended when it is one of %j', (thing, ends) => {
  expect(LIFECYCLES[thing].states.filter((state) => moves(thing, state).length === 0)).toEqual(ends);
});

test('a client may only answer an offer', () => {
  const byClient = things.flatMap(([thing, { moves: all }]) =>
    all.filter(({ who }) => who.includes('client')).map(({ from, to }) => `${thing}: ${from.join()} to ${to}`),
  );
  expect(byClient).toEqual([
    'commission: offered to agreed',
    'commission: offered to turned_down',
    'quote_version: sent to accepted',
    'quote_version: sent to declined',
  ]);
});

test('a piece set aside goes back to any state it can be set aside from, and to no other', () => {
  const setAside = moves('piece', 'set_aside').map(({ to }) => to);
  const from = LIFECYCLES.piece.states.filter((state) => findMove('piece', state, 'set_aside'));
  expect(setAside.toSorted()).toEqual(from.toSorted());
});
