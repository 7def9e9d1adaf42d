import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { factorLdl, planLdl, solveLdl } from '../../../shared/thermal/sparse-ldl.ts';

const aGraph = fc.integer({ min: 2, max: 40 }).chain((size) =>
  fc.record({
    size: fc.constant(size),
    pairs: fc.uniqueArray(
      fc.tuple(fc.nat(size - 1), fc.nat(size - 1)).filter(([i, j]) => i < j),
      {
        maxLength: 120,
        selector: ([i, j]) => i * 100 + j,
      },
    ),
    wanted: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: size, maxLength: size }),
    conductance: fc.double({ min: 0.01, max: 10, noNaN: true }),
  }),
);

test('solveLdl() finds the vector that the matrix was multiplied by', () => {
  fc.assert(
    fc.property(aGraph, ({ size, pairs, wanted, conductance }) => {
      const plan = planLdl(
        size,
        Int32Array.from(pairs, ([i]) => i),
        Int32Array.from(pairs, ([, j]) => j),
      );
      const values = new Float64Array(plan.valueCount);
      const side = Float64Array.from(wanted, (x) => x);
      for (let i = 0; i < size; i++) values[plan.positions[i]!] = 1;
      pairs.forEach(([i, j], e) => {
        const g = conductance * (1 + e / 7);
        values[plan.positions[i]!]! += g;
        values[plan.positions[j]!]! += g;
        values[plan.edgeSlots[e]!]! -= g;
        side[i]! += g * (wanted[i]! - wanted[j]!);
        side[j]! += g * (wanted[j]! - wanted[i]!);
      });
      factorLdl(plan, values);
      solveLdl(plan, values, side, new Float64Array(size));
      side.forEach((x, i) => expect(x).toBeCloseTo(wanted[i]!, 9));
    }),
  );
});

test('planLdl() fills nothing in on a chain', () => {
  const plan = planLdl(
    50,
    Int32Array.from({ length: 49 }, (_, i) => i),
    Int32Array.from({ length: 49 }, (_, i) => i + 1),
  );
  expect(plan.rows).toHaveLength(49);
});
