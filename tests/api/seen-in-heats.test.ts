import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, issueMetal, readiness } from '../support/at-the-bench.ts';
import { aDevice, sendSteps } from '../support/bench-steps.ts';
import { startApp } from '../support/start-app.ts';

const at = (time: string) => `2031-05-05T08:${time}Z`;

test('one tap at flux clear and one at flow calibrate the torch in that hand', async () => {
  const app = await startApp();
  const { bench, owner, clock } = app;
  const { lots } = await aDrawer(app);
  const torchId = (await owner.post('/torches', { name: 'Brazer', torch: 'medium' }).expect(201)).body.id as string;
  const piece = await aDrawnPiece(app);
  const plan = { heats: [{ joints: ['wall-seam'], solder: 'hard' }] };
  const bare = (
    await bench
      .post(`/pieces/${piece.id}/plans`, {
        plan: {
          heats: [
            ...plan.heats,
            { joints: ['bail-seam'], solder: 'hard' },
            { joints: ['bezel'], solder: 'medium' },
            { joints: ['bail-on'], solder: 'easy' },
          ],
        },
        bench: { torchId, support: 'brick' },
      })
      .expect(201)
  ).body;
  await bench.move(`/plans/${bare.id}`, { from: 'draft', to: 'checked' }).expect(200);
  await bench.move(`/plans/${bare.id}`, { from: 'checked', to: 'in_use' }).expect(200);
  await issueMetal(bench, piece.id);
  const heat = (await bench.get(`/heats?planId=${bare.id}`).expect(200)).body.items.at(-1);
  const path = `/heats/${heat.id}`;
  const tap = (saw: string, occurredAt: string) =>
    bench.post(`${path}/sightings`, { saw, occurredAt, deviceId: 'tablet-1', deviceSeq: 9 });
  clock.set(at('10:00'));
  expect((await tap('flow', at('00:10')).expect(409)).body.missing[0]).toContain('it is laid out');
  await bench.move(path, await readiness(bench, heat.id, lots)).expect(200);
  await bench.move(path, { from: 'primed', to: 'alight' }, at('01:00')).expect(200);
  expect((await tap('flux_clear', at('00:59')).expect(422)).body.errors).toMatchObject([{ pointer: '/occurredAt' }]);
  expect((await tap('flux_clear', at('30:00')).expect(422)).body.errors).toMatchObject([{ pointer: '/occurredAt' }]);
  const expected = bare.check.heats[0].timeToFlowS as number;
  // As a device notes them: the second tap of a wet thumb changes nothing, and both may come when the flame is off already.
  const step = aDevice('tablet-9');
  const ms = (seconds: number) => new Date(Date.parse(at('01:00')) + Math.round(seconds * 1000)).toISOString();
  const steps = [
    step(ms(expected * 0.9), { do: 'see_in_heat', heatId: heat.id, saw: 'flux_clear' }),
    step(ms(expected * 1.3), { do: 'see_in_heat', heatId: heat.id, saw: 'flow' }),
    step(ms(expected * 1.3 + 0.4), { do: 'see_in_heat', heatId: heat.id, saw: 'flow' }),
    step(ms(expected * 1.5), { do: 'move_heat', heatId: heat.id, from: 'alight', to: 'cooling', seen: 'ran bright' }),
  ];
  const answers = await sendSteps(bench, steps, clock.now());
  expect(answers.map(({ status }) => status)).toEqual([200, 200, 200, 200]);
  const seen = (await bench.get(path)).body.observed;
  expect(seen.secondsToFluxClear).toBeCloseTo(expected * 0.9, 0);
  expect(seen.secondsToFlow).toBeCloseTo(expected * 1.3, 0);

  // Slower than the model thought: this hand's torch has less power, and the next check of theirs knows.
  const fitted = (await bench.post('/calibrations', { torchId, heatIds: [heat.id] }).expect(201)).body;
  expect(fitted.power.value).toBeLessThan(1);
  const again = (await bench.post(`/plans/${bare.id}/check`).expect(200)).body;
  expect(again.check.heats[1].calibrated).toBe(true);
  expect((await owner.post(`/plans/${bare.id}/check`).expect(200)).body.check.heats[1].calibrated).toBe(false);
});
