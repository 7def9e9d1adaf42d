import { describe, expect, test } from 'vitest';
import type { EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import { estimate } from '../../../shared/costing/estimate.ts';
import reference from '../../reference/estimate-cases.json' with { type: 'json' };

describe.each(reference.cases)('$name', ({ request, expected }) => {
  const found = estimate(request as unknown as EstimateRequest);

  test('lines and totals are exact', () => {
    expect(found.lines).toEqual(expected.lines);
    expect(found.totals).toEqual(expected.totals);
  });

  test('every step of the working is there, in order', () => {
    expect(expected.steps.length).toBeGreaterThan(100);
    expect(found.steps.map(({ key, unit }) => ({ key, unit }))).toEqual(expected.steps.map(({ key, unit }) => ({ key, unit })));
    for (const [index, { key, value }] of expected.steps.entries()) {
      const mine = found.steps[index]!.value;
      if (typeof value === 'string') expect(mine, key).toBe(value);
      else expect(Math.abs(Number(mine) - value), key).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(value)));
    }
  });
});
