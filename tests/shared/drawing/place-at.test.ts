import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pendant } from '../../../seed/designs.ts';
import type { Form, Place } from '../../../shared/design/design.ts';
import { placeFaults } from '../../../shared/design/place-faults.ts';
import { contactOf } from '../../../shared/drawing/contact.ts';
import { posed, type Point } from '../../../shared/drawing/geometry.ts';
import { layOutParts, type PlacedPart } from '../../../shared/drawing/lay-out-parts.ts';
import { strokesOf, type View } from '../../../shared/drawing/part-shape.ts';
import { partUnder } from '../../../shared/drawing/part-under.ts';
import { placeAt } from '../../../shared/drawing/place-at.ts';
import '../../support/fixed-seed.ts';

const share = fc.double({ min: 0, max: 1, noNaN: true });
const pose = fc.record({
  xMm: fc.double({ min: -100, max: 100, noNaN: true }),
  yMm: fc.double({ min: -100, max: 100, noNaN: true }),
  turnRad: fc.double({ min: -4, max: 4, noNaN: true }),
});
const around = (diameterMm: number, s: number) => Math.PI * diameterMm * s;

/** Each form with a place on it, from two shares of its sizes. */
const PLACES: [Form, View, (s: number, t: number) => Omit<Place, 'part'>][] = [
  [{ kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 }, 'above', (s, t) => ({ xMm: 30 * s, yMm: 20 * t })],
  [
    { kind: 'disc', diameterMm: 12, thicknessMm: 0.8 },
    'above',
    (s, t) => ({ xMm: 6 * s * Math.cos(6 * t), yMm: 6 * s * Math.sin(6 * t) }),
  ],
  [{ kind: 'outline', areaMm2: 900, thicknessMm: 1 }, 'above', (s, t) => ({ xMm: 30 * s - 15, yMm: 30 * t - 15 })],
  [{ kind: 'band', insideDiameterMm: 18, heightMm: 4, thicknessMm: 1.5 }, 'above', (s) => ({ alongMm: around(19.5, s) })],
  [
    { kind: 'band', insideDiameterMm: 18, heightMm: 4, thicknessMm: 1.5 },
    'side',
    // In front: a quarter either way from the seam.
    (s, t) => ({ alongMm: around(19.5, (s - 0.5) / 2), acrossMm: 4 * t }),
  ],
  [{ kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1.2 }, 'above', (s) => ({ alongMm: around(5.2, s) })],
  [{ kind: 'square_ring', meanDiameterMm: 10, sideMm: 2 }, 'above', (s) => ({ alongMm: around(10, s) })],
  [{ kind: 'round_wire', lengthMm: 11, diameterMm: 0.8 }, 'above', (s) => ({ alongMm: 11 * s })],
  [{ kind: 'cone', smallDiameterMm: 4, largeDiameterMm: 10, slantMm: 5, thicknessMm: 0.5 }, 'above', (s) => ({ alongMm: 5 * s })],
  [{ kind: 'ball', diameterMm: 2.2 }, 'above', () => ({})],
];

function drawn(form: Form, view: View, at: PlacedPart['pose']): PlacedPart {
  return { part: { id: 'one', metal: 'sterling-925', form }, view, pose: at, strokes: strokesOf(form, view) };
}

function spotOf({ part, view, pose: at }: PlacedPart, place: Place): Point {
  return posed(contactOf(part.form, { view, place, kind: 'tee', side: 'above' }).at, at);
}

test.each(PLACES)('placeAt() reads back where a place on %o, seen from %s, is drawn', (form, view, placeOf) => {
  fc.assert(
    fc.property(share, share, pose, (s, t, at) => {
      const one = drawn(form, view, at);
      const spot = spotOf(one, { part: 'one', ...placeOf(s, t) });
      const read = placeAt(one, spot, { kind: 'tee', snapMm: 0 });
      expect(placeFaults(form, read)).toEqual([]);
      const again = spotOf(one, read);
      // Two axes, each to the hundredth, and a rim that is drawn a little farther out than its mean circle.
      expect(Math.hypot(again.xMm - spot.xMm, again.yMm - spot.yMm)).toBeLessThan(0.02);
    }),
  );
});

test('placeAt() takes what is near a middle, an end, a rim or a quarter as on it, and what is off the metal as at its edge', () => {
  const flat = { xMm: 0, yMm: 0, turnRad: 0 };
  const read = (form: Form, xMm: number, yMm: number) =>
    placeAt(drawn(form, 'above', flat), { xMm, yMm }, { kind: 'tee', snapMm: 0.5 });
  const sheet: Form = { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 };
  expect(read(sheet, 0.3, 9.8)).toEqual({ part: 'one', xMm: 15, yMm: 20 });
  expect(read(sheet, -40, 3.21)).toEqual({ part: 'one', xMm: 0, yMm: 13.21 });
  const disc: Form = { kind: 'disc', diameterMm: 12, thicknessMm: 0.8 };
  expect(read(disc, 0.2, -0.3)).toEqual({ part: 'one', xMm: 0, yMm: 0 });
  expect(read(disc, 0, 5.7)).toEqual({ part: 'one', xMm: 0, yMm: 6 });
  // Round a ring of 10 mm mean, a quarter is 7.85 mm: on the right, counted from the seam below.
  expect(read({ kind: 'square_ring', meanDiameterMm: 10, sideMm: 2 }, 5, 0.1)).toEqual({ part: 'one', alongMm: 7.85 });
  expect(read({ kind: 'square_ring', meanDiameterMm: 10, sideMm: 2 }, -0.1, -5)).toEqual({ part: 'one', alongMm: 0 });
});

test('partUnder() finds the smaller of two that lie over each other, and the larger beside it', () => {
  const { parts } = layOutParts(pendant);
  const plate = parts[0]!.pose;
  const under = (xMm: number, yMm: number) => partUnder(parts, { xMm: plate.xMm + xMm, yMm: plate.yMm + yMm }, 0.2)?.part.id;
  // The bezel's wall is 5.175 mm from its middle, which is 2 mm below that of the plate.
  expect(under(5.175, -2)).toBe('wall');
  expect(under(0, -2)).toBe('plate');
  expect(under(-14, 8)).toBe('plate');
  expect(under(-20, 0)).toBeUndefined();
});
