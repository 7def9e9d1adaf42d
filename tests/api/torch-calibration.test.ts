import { expect, test } from 'vitest';
import { HEATS, STRIP } from '../support/observed-heats.ts';
import { startApp } from '../support/start-app.ts';

const path = '/calculations/torch-calibration';

test('POST torch-calibration tells the power from one heat, and says what it cannot tell', async () => {
  const { student } = await startApp();
  const { body } = await student
    .post(path, { torch: 'medium', observations: [{ ...HEATS.disc, secondsToFlow: 8 }] })
    .expect(200)
    .expect('content-type', /json/);
  expect(body.power.toldByData).toBe(true);
  // It flowed sooner than the 10.8 s that the torch as it is takes.
  expect(body.power.value).toBeGreaterThan(1.1);
  expect(body.power.value).toBeLessThan(1.8);
  expect(body.loss).toEqual({ value: 1, standardError: 0.3, toldByData: false });
  expect(body.spread).toEqual({ value: 1, standardError: 0.25, toldByData: false });
  expect(body.times).toEqual([{ of: 'heat', number: 1, what: 'flow', observedS: 8, predictedS: expect.closeTo(8, 0) }]);
  expect(body.says).toEqual([
    expect.stringContaining('cannot tell what the piece loses to the room'),
    expect.stringContaining('cannot tell how wide the flame is'),
  ]);
});

test('POST torch-calibration takes cooling times and strips, and a torch of one’s own', async () => {
  const { bench } = await startApp();
  const { body } = await bench
    .post(path, {
      torch: { powerW: 250, spreadMm: 10, gasC: 1500 },
      observations: [{ ...HEATS.ring, support: 'charcoal', secondsToFluxClear: 9, secondsToFlow: 17, secondsToEndOfGlow: 20 }],
      strips: [{ ...STRIP, secondsBetweenChips: 3 }],
    })
    .expect(200);
  expect(body.times).toHaveLength(4);
  expect(body.loss.toldByData).toBe(true);
  // 16 s is what the model takes without a calibration.
  expect(body.loss.value).toBeLessThan(1);
});

test('POST torch-calibration refuses times that cannot have been seen', async () => {
  const { bench } = await startApp();
  const post = (observation: object) => bench.post(path, { torch: 'medium', observations: [{ ...HEATS.disc, ...observation }] });
  const shape = await post({ secondsToFlow: 0, secondsToGlow: 3 }).expect(422);
  expect(shape.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
    '/observations/0/secondsToFlow',
    '/observations/0/secondsToGlow',
  ]);
  const turned = await post({ secondsToFluxClear: 9, secondsToFlow: 8 }).expect(422);
  expect(turned.body).toMatchObject({
    type: '/api/v1/problems/outside-model',
    detail: expect.stringContaining('before the flow'),
  });
  const none = await post({}).expect(422);
  expect(none.body.detail).toContain('at least one');
  await post({ secondsToFlow: 8, heat: 2 }).expect(422);
});
