import * as fc from 'fast-check';
import type { Design, Form, FormKind, Joint, OwnMetal } from '../../shared/design/design.ts';
import type { Bench, Flame, Protection, Support, TorchPreset } from '../../shared/design/plan.ts';
import type { HeatQuestion } from '../../shared/thermal/heat-run.ts';
import { SOLDERS } from './heated-pieces.ts';

const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Every form there is, in the sizes of a small bench. */
export const FORMS: { [Kind in FormKind]: fc.Arbitrary<Extract<Form, { kind: Kind }>> } = {
  sheet: fc.record({ kind: fc.constant('sheet'), lengthMm: mm(6, 40), widthMm: mm(4, 30), thicknessMm: mm(0.4, 2) }),
  disc: fc.record({ kind: fc.constant('disc'), diameterMm: mm(5, 35), thicknessMm: mm(0.4, 2) }),
  outline: fc.record({ kind: fc.constant('outline'), areaMm2: mm(30, 900), thicknessMm: mm(0.4, 2) }),
  washer: fc
    .record({ outsideDiameterMm: mm(8, 30), hole: mm(0.2, 0.8), thicknessMm: mm(0.5, 2) })
    .map(({ outsideDiameterMm, hole, thicknessMm }) => ({
      kind: 'washer',
      outsideDiameterMm,
      insideDiameterMm: hole * outsideDiameterMm,
      thicknessMm,
    })),
  band: fc.record({ kind: fc.constant('band'), insideDiameterMm: mm(4, 25), heightMm: mm(1, 10), thicknessMm: mm(0.3, 2) }),
  bar: fc.record({ kind: fc.constant('bar'), lengthMm: mm(5, 80), widthMm: mm(1, 6), thicknessMm: mm(0.6, 3) }),
  round_wire: fc.record({ kind: fc.constant('round_wire'), lengthMm: mm(4, 80), diameterMm: mm(0.6, 4) }),
  square_wire: fc.record({ kind: fc.constant('square_wire'), lengthMm: mm(4, 80), sideMm: mm(0.6, 4) }),
  half_round_wire: fc
    .record({ lengthMm: mm(4, 80), widthMm: mm(1.5, 6), share: mm(0.2, 0.5) })
    .map(({ lengthMm, widthMm, share }) => ({ kind: 'half_round_wire', lengthMm, widthMm, heightMm: share * widthMm })),
  tube: fc
    .record({ lengthMm: mm(4, 40), outsideDiameterMm: mm(2, 12), bore: mm(0.4, 0.85) })
    .map(({ lengthMm, outsideDiameterMm, bore }) => ({
      kind: 'tube',
      lengthMm,
      outsideDiameterMm,
      insideDiameterMm: bore * outsideDiameterMm,
    })),
  wire_ring: fc.record({ kind: fc.constant('wire_ring'), insideDiameterMm: mm(2, 25), diameterMm: mm(0.6, 3) }),
  square_ring: fc.record({ kind: fc.constant('square_ring'), meanDiameterMm: mm(5, 25), sideMm: mm(0.6, 3) }),
  cone: fc.record({
    kind: fc.constant('cone'),
    smallDiameterMm: mm(3, 10),
    largeDiameterMm: mm(10, 20),
    slantMm: mm(3, 15),
    thicknessMm: mm(0.4, 1.2),
  }),
  dome: fc.record({ kind: fc.constant('dome'), blankDiameterMm: mm(5, 30), thicknessMm: mm(0.4, 1.5) }),
  ball: fc.record({ kind: fc.constant('ball'), diameterMm: mm(1, 8) }),
  weighed: fc.record({ kind: fc.constant('weighed'), massG: mm(0.1, 10), areaMm2: mm(20, 600) }),
};

/** One joint of every kind between two parts, each at a place that any form has. */
const JOINTS: readonly ((parts: [string, string], alongMm: number) => Joint)[] = [
  (on, at) => ({ id: 'j', kind: 'butt', widthMm: 2, thicknessMm: 0.8, gapMm: 0.05, between: places(on, at) }),
  (on, at) => ({ id: 'j', kind: 'lap', widthMm: 3, overlapMm: 1.5, gapMm: 0.05, between: places(on, at) }),
  (on, at) => ({ id: 'j', kind: 'tee', lengthMm: 3, thicknessMm: 0.8, gapMm: 0.05, between: places(on, at) }),
  (on, at) => ({ id: 'j', kind: 'seam', lengthMm: 4, thicknessMm: 0.8, gapMm: 0.05, between: places(on, at) }),
  (on, at) => ({
    id: 'j',
    kind: 'loop_base',
    insideDiameterMm: 4,
    thicknessMm: 0.4,
    gapMm: 0.05,
    between: places(on, at),
  }),
  (on, at) => ({ id: 'j', kind: 'jump_ring', diameterMm: 1, gapMm: 0.05, between: places(on, at) }),
  (on, at) => ({ id: 'j', kind: 'post', diameterMm: 0.9, gapMm: 0.05, between: places(on, at) }),
  (on, at) => ({ id: 'j', kind: 'granule', diameterMm: 2, neckRadiusMm: 0.5, gapMm: 0.05, between: places(on, at) }),
];

function places([a, b]: [string, string], alongMm: number) {
  return [
    { part: a, alongMm, xMm: alongMm, yMm: 2 },
    { part: b, alongMm: 0 },
  ] as const;
}

const aJoint = fc.record({ make: fc.constantFrom(...JOINTS), alongMm: mm(0, 30) });
const aForm = fc.oneof(...Object.values(FORMS)) as fc.Arbitrary<Form>;
const aTorch = fc.constantFrom<TorchPreset>('micro', 'small', 'medium', 'large', 'extra_large', 'hot_point');
const aSupport = fc.constantFrom<Support>('brick', 'charcoal', 'hard_brick', 'air');
const aMetal = fc.constantFrom<string | OwnMetal>('sterling-925', 'fine-silver-999', {
  densityGPerCm3: 8.9,
  solidusC: 900,
  liquidusC: 950,
  conductivityWPerMK: 180,
  specificHeatJPerGK: 0.4,
  emissivityFraction: 0.5,
});

const aFlame: fc.Arbitrary<Flame> = fc.oneof(
  fc.constant({}),
  fc.record({ tiltDeg: mm(0, 80), towards: fc.constant('made') }),
  fc.record({ tiltDeg: mm(0, 80), awayFrom: fc.constant('made') }),
  fc.record({ sweepMm: mm(0, 20) }),
  fc.record({ aim: fc.record({ part: fc.constant('base'), alongMm: mm(0, 40) }) }),
);

const aProtection: fc.Arbitrary<Protection> = fc.oneof(
  fc.constantFrom<Protection>(
    { kind: 'shield', guards: 'made' },
    { kind: 'shield', guards: 'second' },
    { kind: 'anti_flow', guards: 'made' },
    ...(['tweezers', 'heavy_clamp', 'wet_pack'] as const).map((sink): Protection => ({
      kind: 'sink',
      sink,
      at: { joint: 'made' },
    })),
  ),
);

/** A base of any form, a part of any form being joined to it and another that was before, in any fire. */
export const anyHeat: fc.Arbitrary<HeatQuestion> = fc
  .record({
    forms: fc.tuple(aForm, aForm, aForm),
    metals: fc.tuple(aMetal, aMetal, aMetal),
    joints: fc.tuple(aJoint, aJoint),
    torch: aTorch,
    support: aSupport,
    flame: aFlame,
    protections: fc.array(aProtection, { maxLength: 3 }),
  })
  .map(({ forms, metals, joints, torch, support, flame, protections }) => {
    const ids = ['base', 'first', 'second'] as const;
    const design: Design = {
      parts: forms.map((form, i) => ({ id: ids[i]!, metal: metals[i]!, form })),
      joints: joints.map(({ make, alongMm }, i) => ({
        ...make(['base', ids[i + 1]!], alongMm),
        id: i === 0 ? 'target' : 'made',
      })),
    };
    const bench: Bench = { torch, support };
    return { design, bench, targets: ['target'], made: ['made'], solders: SOLDERS, flame, protections };
  });
