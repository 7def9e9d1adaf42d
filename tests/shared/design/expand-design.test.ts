import { expect, test } from 'vitest';
import { expandDesign, expandHeat } from '../../../shared/design/expand-design.ts';
import type { Design } from '../../../shared/design/design.ts';
import { EngineInputError } from '../../../shared/engine-input-error.ts';

const DESIGN: Design = {
  parts: [
    { id: 'plate', metal: 'sterling-925', form: { kind: 'disc', diameterMm: 12, thicknessMm: 0.8 } },
    { id: 'grain', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 }, count: 3 },
    { id: 'loop', metal: 'sterling-925', form: { kind: 'wire_ring', insideDiameterMm: 2, diameterMm: 0.8 }, count: 2 },
  ],
  joints: [
    {
      id: 'grain',
      kind: 'granule',
      between: [{ part: 'plate', xMm: 2 }, { part: 'grain' }],
      count: 3,
      diameterMm: 2,
      neckRadiusMm: 0.5,
      gapMm: 0,
    },
    { id: 'loop-seam', kind: 'jump_ring', closes: 'loop', count: 2, diameterMm: 0.8, gapMm: 0 },
    { id: 'loop-on', kind: 'butt', between: [{ part: 'plate' }, { part: 'loop' }], widthMm: 1, thicknessMm: 1, gapMm: 0 },
  ],
  rules: {
    before: [['loop-seam', 'loop-on']],
    sameHeat: [['grain']],
    notSameHeat: [['grain', 'loop-seam']],
    grades: { grain: { only: 'hard' } },
  },
};

test('expandDesign() numbers copies, keeps single ids and attaches copy to copy', () => {
  const { design, partsOf, jointsOf } = expandDesign(DESIGN);
  expect(design.parts.map(({ id }) => id)).toEqual(['plate', 'grain.1', 'grain.2', 'grain.3', 'loop.1', 'loop.2']);
  expect(design.joints.map(({ id }) => id)).toEqual(['grain.1', 'grain.2', 'grain.3', 'loop-seam.1', 'loop-seam.2', 'loop-on']);
  expect(design.joints.map((joint) => joint.closes ?? joint.between.map(({ part }) => part).join('+'))).toEqual([
    'plate+grain.1',
    'plate+grain.2',
    'plate+grain.3',
    'loop.1',
    'loop.2',
    'plate+loop.1',
  ]);
  expect(design.parts.every((part) => part.count === undefined)).toBe(true);
  expect([partsOf('grain'), jointsOf('loop-on'), jointsOf('grain.2')]).toEqual([
    ['grain.1', 'grain.2', 'grain.3'],
    ['loop-on'],
    ['grain.2'],
  ]);
});

test('expandDesign() lets a rule on an id hold for its copies', () => {
  const { rules } = expandDesign(DESIGN).design;
  expect(rules!.before).toEqual([
    ['loop-seam.1', 'loop-on'],
    ['loop-seam.2', 'loop-on'],
  ]);
  expect(rules!.sameHeat).toEqual([['grain.1', 'grain.2', 'grain.3']]);
  expect(rules!.notSameHeat).toHaveLength(6);
  expect(rules!.notSameHeat).not.toContainEqual(['grain.1', 'grain.2']);
  expect(Object.keys(rules!.grades!)).toEqual(['grain.1', 'grain.2', 'grain.3']);
});

test('expandHeat() means every copy, and the first where one place is meant', () => {
  const heat = expandHeat(
    {
      joints: ['grain'],
      solder: 'hard',
      flame: { tiltDeg: 30, awayFrom: 'loop', aim: { part: 'plate', xMm: 1 } },
      protections: [
        { kind: 'sink', sink: 'tweezers', at: { joint: 'loop-seam' } },
        { kind: 'anti_flow', guards: 'loop-on' },
      ],
    },
    expandDesign(DESIGN),
  );
  expect(heat).toEqual({
    joints: ['grain.1', 'grain.2', 'grain.3'],
    solder: 'hard',
    flame: { tiltDeg: 30, awayFrom: 'loop.1', aim: { part: 'plate', xMm: 1 } },
    protections: [
      { kind: 'sink', sink: 'tweezers', at: { joint: 'loop-seam.1' } },
      { kind: 'sink', sink: 'tweezers', at: { joint: 'loop-seam.2' } },
      { kind: 'anti_flow', guards: 'loop-on' },
    ],
  });
});

test.each<[string, () => unknown]>([
  ['an unknown part', () => expandDesign({ ...DESIGN, parts: DESIGN.parts.slice(1) })],
  ['an id used twice', () => expandDesign({ ...DESIGN, parts: [...DESIGN.parts, DESIGN.parts[0]!] })],
  [
    'an id that a copy takes',
    () => expandDesign({ ...DESIGN, parts: [...DESIGN.parts, { ...DESIGN.parts[0]!, id: 'grain.2' }] }),
  ],
  ['half a part', () => expandDesign({ ...DESIGN, parts: DESIGN.parts.map((part) => ({ ...part, count: 1.5 })) })],
  ['an unknown joint in a rule', () => expandDesign({ ...DESIGN, rules: { before: [['clasp', 'grain']] } })],
  ['an unknown joint in a heat', () => expandHeat({ joints: ['clasp'] }, expandDesign(DESIGN))],
])('expansion refuses %s', (_, expand) => {
  expect(expand).toThrow(EngineInputError);
});
