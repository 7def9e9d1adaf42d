import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { FormKind } from '../../../shared/design/design.ts';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import type { HeatQuestion } from '../../../shared/thermal/heat-run.ts';
import { simulateHeat } from '../../../shared/thermal/simulate-heat.ts';
import { anyHeat, FORMS } from '../../support/any-heat.ts';

/** Where a number that is not finite hides in an answer; what is not a number may be null or a word. */
function badNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (value instanceof Float64Array) return value.every(Number.isFinite) ? [] : [`${path} holds one`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => badNumbers(inner, `${path}.${key}`));
}

function expectFinite(question: HeatQuestion): void {
  const run = simulateHeat(question);
  expect(badNumbers(run)).toEqual([]);
  for (const { flow, joints, parts } of Object.values(run.bySolder)) {
    expect(['flows', 'only_just', 'does_not_flow']).toContain(flow);
    expect(Object.keys(joints)).toContain('made');
    expect(Object.keys(parts).toSorted()).toEqual(['base', 'first', 'second']);
  }
}

test('every form of a design is drawn from', () => {
  expect(Object.keys(FORMS)).toHaveLength(16);
});

test.each(Object.keys(FORMS) as FormKind[])('a heat of a %s is told in finite numbers', (kind) => {
  fc.assert(
    fc.property(anyHeat, FORMS[kind], (question, form) => {
      const parts = question.design.parts.map((part) => (part.id === 'base' ? { ...part, form } : part));
      expectFinite({ ...question, design: { ...question.design, parts } });
    }),
    { numRuns: 12 },
  );
});

/** Numbers that a hand types by mistake, or a program by fault. */
const WILD = [0, -1, -0, Number.NaN, Infinity, -Infinity, 1e-12, 1e-3, 1e4, 1e5, 1e12, 1e300, Number.MAX_VALUE, Number.MIN_VALUE];

function numberPaths(value: unknown, path: readonly string[] = []): string[][] {
  if (typeof value === 'number') return [[...path]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numberPaths(inner, [...path, key]));
}

function withNumber<T>(value: T, [key, ...rest]: readonly string[], wild: number): T {
  if (key === undefined) return wild as T;
  const copy = (Array.isArray(value) ? [...(value as unknown[])] : { ...value }) as Record<string, unknown>;
  copy[key] = withNumber(copy[key], rest, wild);
  return copy as T;
}

const wildHeat = fc
  .record({ question: anyHeat, at: fc.nat(), wild: fc.constantFrom(...WILD), own: fc.boolean() })
  .map(({ question, at, wild, own }) => {
    const bench = own
      ? {
          ...question.bench,
          torch: { powerW: 200, spreadMm: 8, gasC: 1500 },
          calibration: { powerFactor: 1, lossFactor: 1, spreadFactor: 1 },
        }
      : question.bench;
    const whole = { ...question, bench };
    const paths = numberPaths(whole);
    return withNumber(whole, paths[at % paths.length]!, wild);
  });

test('one wild number anywhere is refused by name or answered in finite numbers', () => {
  let refused = 0;
  let answered = 0;
  fc.assert(
    fc.property(wildHeat, (question) => {
      try {
        expectFinite(question);
        answered += 1;
      } catch (error) {
        if (!(error instanceof EngineInputError)) throw error;
        refused += 1;
      }
    }),
    { numRuns: 300, endOnFailure: true },
  );
  expect(refused).toBeGreaterThan(50);
  expect(answered).toBeGreaterThan(50);
});
