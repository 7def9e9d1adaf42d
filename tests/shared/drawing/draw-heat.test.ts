import { expect, test } from 'vitest';
import { drawHeat } from '../../../shared/drawing/draw-heat.ts';
import { pendant, pendantPlan } from '../../support/pendant.ts';

const words = { title: 'Heat 4', description: 'bail-on' };
const heat = pendantPlan.heats[3]!;
const drawn = drawHeat(pendant, { heat, inFire: ['plate', 'wall', 'bail'], made: ['wall-seam', 'bail-seam', 'bezel'], words });

test('drawHeat() marks the joints of the heat apart from those made before, and each protection once', () => {
  expect(drawn.match(/class="heat-target"/g)).toHaveLength(1);
  expect(drawn.match(/class="heat-made"/g)).toHaveLength(3);
  for (const mark of ['heat-sink', 'heat-anti-flow', 'heat-flame'])
    expect(drawn.match(new RegExp(`class="${mark}"`, 'g'))).toHaveLength(1);
  expect(drawn).toContain('class="heat-shield"');
});

test('drawHeat() keeps what is not in the fire faint, and joints that are not made yet out', () => {
  const first = drawHeat(pendant, { heat: pendantPlan.heats[0]!, inFire: ['wall'], made: [], words });
  expect(first.match(/class="heat-(made|target)"/g)).toEqual(['class="heat-target"']);
  const [cold, hot] = [/<g class="heat-cold"[^>]*>(.*?)<\/g>/, /<g class="heat-hot"[^>]*>(.*?)<\/g>/].map(
    (group) => group.exec(first)![1]!,
  );
  // The wall is two circles seen from above; plate and bail are not in the fire.
  expect(hot!.match(/<circle/g)).toHaveLength(2);
  expect(cold).toContain('<polygon');
});

/** Where the flame touches, on the page. */
const tipOf = (flame: object): number[] =>
  /class="heat-flame" d="M([-\d.]+) ([-\d.]+)/
    .exec(drawHeat(pendant, { heat: { ...heat, flame }, inFire: ['plate'], made: [], words }))!
    .slice(1)
    .map(Number);

test('drawHeat() tilts the flame over the joint it points away from', () => {
  const [upright, away] = [tipOf({}), tipOf({ tiltDeg: 45, awayFrom: 'bezel' })];
  expect(away).not.toEqual(upright);
  // The bezel is below bail-on in the drawing, so the torch is below and the tip is below the joint.
  expect(away[1]!).toBeGreaterThan(upright[1]!);
});
