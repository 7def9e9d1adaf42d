import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';
import { SOLDERS } from '../support/heated-pieces.ts';
import { pendant } from '../../seed/designs.ts';

const bench = { torch: 'medium', support: 'brick' };

test('POST plan-check answers, when asked, how every temperature went, and nothing else differently', async () => {
  const { owner } = await startApp();
  const plan = {
    heats: [
      { joints: ['wall-seam'], solder: 'hard' },
      { joints: ['bezel'], solder: 'medium' },
    ],
  };
  const design = { ...pendant, joints: pendant.joints.filter(({ id }) => ['wall-seam', 'bezel'].includes(id)) };
  const request = { design, solders: SOLDERS, bench, plan };
  const asked = await owner.post('/calculations/plan-check', { ...request, histories: true }).expect(200);
  const plain = await owner.post('/calculations/plan-check', request).expect(200);
  interface History {
    of: string;
    id: string;
    timesS: number[];
    temperaturesC: number[];
  }
  interface AskedHeat {
    histories?: History[];
    flowC: number;
    parts: { part: string; peakC: number }[];
    earlierJoints: { joint: string; peakC: number }[];
  }
  const heats = asked.body.heats as AskedHeat[];
  expect(asked.body).toMatchObject(plain.body);
  for (const heat of plain.body.heats) expect(heat).not.toHaveProperty('histories');
  expect(heats[1]!.histories!.map(({ of, id }) => `${of} ${id}`)).toEqual([
    'target bezel',
    'joint wall-seam',
    'part plate',
    'part wall',
  ]);
  for (const { histories, flowC, parts, earlierJoints } of heats) {
    for (const { of, id, timesS, temperaturesC } of histories!) {
      expect(timesS.length).toBe(temperaturesC.length);
      expect(timesS.length).toBeLessThanOrEqual(300);
      expect(temperaturesC[0]).toBe(20);
      const peakC = Math.max(...temperaturesC);
      if (of === 'target') expect(peakC).toBeGreaterThanOrEqual(flowC - 1);
      else {
        const read = of === 'part' ? parts.find(({ part }) => part === id) : earlierJoints.find(({ joint }) => joint === id);
        expect(Math.abs(peakC - read!.peakC)).toBeLessThanOrEqual(1);
      }
    }
  }
});
