import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Design, Form, Joint, Place } from '../../../shared/design/design.ts';
import { drawDesign } from '../../../shared/drawing/draw-design.ts';
import { readSvg } from '../../support/drawn-svg.ts';

const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const long = mm(0.1, 400);
const thin = mm(0.05, 20);
const form: fc.Arbitrary<Form> = fc.oneof(
  fc.record({ kind: fc.constant('sheet' as const), lengthMm: long, widthMm: long, thicknessMm: thin }),
  fc.record({ kind: fc.constant('disc' as const), diameterMm: long, thicknessMm: thin }),
  fc.record({ kind: fc.constant('outline' as const), areaMm2: mm(0.01, 90_000), thicknessMm: thin }),
  fc.tuple(long, mm(0.01, 0.99), thin).map(([outsideDiameterMm, share, thicknessMm]): Form => ({
    kind: 'washer',
    outsideDiameterMm,
    insideDiameterMm: outsideDiameterMm * share,
    thicknessMm,
  })),
  fc.record({ kind: fc.constant('band' as const), insideDiameterMm: long, heightMm: long, thicknessMm: thin }),
  fc.record({ kind: fc.constant('bar' as const), lengthMm: long, widthMm: long, thicknessMm: thin }),
  fc.record({ kind: fc.constant('round_wire' as const), lengthMm: long, diameterMm: thin }),
  fc.record({ kind: fc.constant('half_round_wire' as const), lengthMm: long, widthMm: long, heightMm: thin }),
  fc.tuple(long, long, mm(0.01, 0.99)).map(([lengthMm, outsideDiameterMm, share]): Form => ({
    kind: 'tube',
    lengthMm,
    outsideDiameterMm,
    insideDiameterMm: outsideDiameterMm * share,
  })),
  fc.record({ kind: fc.constant('wire_ring' as const), insideDiameterMm: long, diameterMm: thin }),
  fc.tuple(mm(0, 1), long, mm(0.1, 400), thin).map(([share, largeDiameterMm, slantMm, thicknessMm]): Form => ({
    kind: 'cone',
    smallDiameterMm: largeDiameterMm * share,
    largeDiameterMm,
    slantMm,
    thicknessMm,
  })),
  fc.record({ kind: fc.constant('dome' as const), blankDiameterMm: long, thicknessMm: thin }),
  fc.record({ kind: fc.constant('ball' as const), diameterMm: long }),
  fc.record({ kind: fc.constant('weighed' as const), massG: mm(0.1, 100), areaMm2: mm(0, 1e4) }),
);

const position = fc.option(mm(-200, 200), { nil: undefined });
/** Any letters but digits, which only numbers of joints are to be. */
const words = fc.string({ unit: 'binary', maxLength: 30 }).map((text) => text.replaceAll(/\d/g, '#'));

function placeOn(part: string): fc.Arbitrary<Place> {
  return fc
    .tuple(position, position, position, position)
    .map(([xMm, yMm, alongMm, acrossMm]) => JSON.parse(JSON.stringify({ part, xMm, yMm, alongMm, acrossMm })) as Place);
}

const sizes = fc.constantFrom(
  { kind: 'loop_base' as const },
  { kind: 'lap' as const, widthMm: 2, overlapMm: 2 },
  { kind: 'tee' as const, lengthMm: 2, thicknessMm: 1 },
  { kind: 'post' as const, diameterMm: 1 },
  { kind: 'granule' as const, diameterMm: 2, neckRadiusMm: 0.5 },
);

const design: fc.Arbitrary<Design> = fc.array(form, { minLength: 1, maxLength: 9 }).chain((forms) => {
  const parts = forms.map((one, index) => ({ id: `p${index}`, metal: 'sterling-925', form: one }));
  const some = fc.constantFrom(...parts.map(({ id }) => id));
  const joint: fc.Arbitrary<Joint> = fc.oneof(
    fc.record({ kind: fc.constant('jump_ring' as const), id: words, closes: some, gapMm: fc.constant(0.05) }),
    fc
      .tuple(
        sizes,
        words,
        fc.tuple(some, some).chain(([a, b]) => fc.tuple(placeOn(a), placeOn(b))),
      )
      .map(([size, id, between]): Joint => ({ ...size, id, gapMm: 0.05, between })),
  );
  return fc.record({ parts: fc.constant(parts), joints: fc.array(joint, { maxLength: 12 }) });
});

const within = (value: number, most: number): boolean => value >= 0 && value <= most;

test('drawDesign() draws any design inside its viewBox, each joint numbered once', () => {
  fc.assert(
    fc.property(design, (given) => {
      const svg = drawDesign(given, { words: { title: 'any', description: 'any' } });
      expect(svg).not.toMatch(/NaN|Infinity|undefined/);
      const { width, height, circles, points, texts } = readSvg(svg);
      for (const { cx, cy, r } of circles) {
        expect(within(cx - r, width) && within(cx + r, width) && within(cy - r, height) && within(cy + r, height)).toBe(true);
      }
      for (const { x, y } of points) expect(within(x, width) && within(y, height)).toBe(true);
      const numbers = texts.filter((text) => /^\d+$/.test(text)).map(Number);
      expect(numbers.toSorted((a, b) => a - b)).toEqual(given.joints.map((_joint, index) => index + 1));
    }),
    { numRuns: 300 },
  );
});
