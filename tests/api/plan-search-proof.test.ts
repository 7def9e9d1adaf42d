import { expect, test } from 'vitest';
import { pendant } from '../../seed/designs.ts';
import { heatedPiece } from '../support/heated-kinds.ts';
import { SOLDERS } from '../support/heated-pieces.ts';
import { startApp } from '../support/start-app.ts';

interface Level {
  level: string;
  value: number | null;
  bound: number | null;
  proven: boolean;
  heuristic: boolean;
}

const LEVELS = ['margin', 'protections', 'heats', 'grades', 'preference', 'time'];

/** The margin is the better the higher, all else the lower. */
const isNoBetterThan = ({ level, value, bound }: Level): boolean => (level === 'margin' ? value! <= bound! : value! >= bound!);

test('a search that comes to its end says of every level what it is, and that it is proven', async () => {
  const { owner } = await startApp();
  const bench = { torch: 'medium', support: 'brick' };
  const { body } = await owner.post('/calculations/plan-search', { design: pendant, solders: SOLDERS, bench }).expect(200);
  expect(body.outcome).toBe('optimal');
  expect(body.proof.map(({ level }: Level) => level)).toEqual(LEVELS);
  for (const { value, bound, proven, heuristic } of body.proof as Level[]) {
    expect([proven, heuristic]).toEqual([true, false]);
    expect(bound).toBe(value);
  }
});

test('a search that is cut short says how good each level still might be, and proves none after one that is open', async () => {
  const { owner } = await startApp();
  const bench = { torch: 'large', support: 'brick' };
  const options = { policy: 'do_not_run', workUnits: 30_000 };
  const request = { design: heatedPiece('posts', 7), solders: SOLDERS, bench, options };
  const { body } = await owner.post('/calculations/plan-search', request).expect(200);
  const short = body as { outcome: string; proof: Level[] };
  expect(short.outcome).toBe('feasible');
  expect(short.proof.map(({ level }) => level)).toEqual(LEVELS);
  const open = short.proof.findIndex(({ proven }) => !proven);
  expect(open).toBeGreaterThanOrEqual(0);
  for (const [i, each] of short.proof.entries()) {
    expect(each.proven).toBe(i < open);
    expect(each.heuristic).toBe(false);
    expect(isNoBetterThan(each), each.level).toBe(true);
  }
});
