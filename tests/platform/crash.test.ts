import { expect, test } from 'vitest';
import { crash } from '../house/rig/crash.ts';

test('thirty kills under four writing clients lose nothing, halve nothing and double nothing', { timeout: 600_000 }, async () => {
  const { faults, acknowledged, underWay } = await crash(30);
  expect(faults).toEqual([]);
  expect(acknowledged).toBeGreaterThan(20);
  expect(underWay).toBeGreaterThan(10);
});
