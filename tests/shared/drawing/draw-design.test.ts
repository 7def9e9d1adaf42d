import { expect, test } from 'vitest';
import * as designs from '../../../seed/designs.ts';
import * as larger from '../../../seed/larger-designs.ts';
import type { Design, Form } from '../../../shared/design/design.ts';
import { drawDesign } from '../../../shared/drawing/draw-design.ts';
import { readSvg, type DrawnSvg } from '../../support/drawn-svg.ts';

const words = { title: 'A piece', description: 'Its parts from above' };
const draw = (design: Design) => readSvg(drawDesign(design, { words }));
const alone = (form: Form): Design => ({ parts: [{ id: 'one', metal: 'sterling-925', form }], joints: [] });

/** By the shoelace formula, in mm². */
function areaMm2(corners: DrawnSvg['outlines'][number], { unitsPerMm }: DrawnSvg): number {
  const twice = corners.reduce((sum, { x, y }, index) => {
    const next = corners[(index + 1) % corners.length]!;
    return sum + x * next.y - next.x * y;
  }, 0);
  return Math.abs(twice) / 2 / unitsPerMm ** 2;
}

const radiiMm = (drawn: DrawnSvg) =>
  drawn.circles.filter(({ filled, r }) => !filled && r !== 11).map(({ r }) => Number((r / drawn.unitsPerMm).toFixed(2)));

test.each<[Form, number]>([
  [{ kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 }, 600],
  // Its shape is not known: the square of its area, 30 mm × 30 mm.
  [{ kind: 'outline', areaMm2: 900, thicknessMm: 1 }, 900],
  [{ kind: 'bar', lengthMm: 5, widthMm: 3, thicknessMm: 2 }, 15],
  [{ kind: 'round_wire', lengthMm: 11, diameterMm: 0.8 }, 8.8],
  [{ kind: 'tube', lengthMm: 6, outsideDiameterMm: 5, insideDiameterMm: 3.6 }, 30],
  // 3-4-5: a wall of 5 from a width of 4 to one of 10 stands 4 high, so (4 + 10) / 2 × 4.
  [{ kind: 'cone', smallDiameterMm: 4, largeDiameterMm: 10, slantMm: 5, thicknessMm: 0.5 }, 28],
  // Two faces of 8 mm² were given.
  [{ kind: 'weighed', massG: 2, areaMm2: 16 }, 8],
])('drawDesign() draws %o to the scale of its bar', (form, wantedMm2) => {
  const drawn = draw(alone(form));
  const areas = drawn.outlines.map((corners) => areaMm2(corners, drawn));
  expect(areas).toHaveLength(1);
  expect(areas[0]).toBeGreaterThan(wantedMm2 * 0.995);
  expect(areas[0]).toBeLessThan(wantedMm2 * 1.005);
});

test.each<[Form, number[]]>([
  [{ kind: 'disc', diameterMm: 12, thicknessMm: 0.8 }, [6]],
  [{ kind: 'washer', outsideDiameterMm: 20, insideDiameterMm: 8, thicknessMm: 1 }, [10, 4]],
  [{ kind: 'band', insideDiameterMm: 18, heightMm: 4, thicknessMm: 1.5 }, [10.5, 9]],
  [{ kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1.2 }, [3.2, 2]],
  [{ kind: 'square_ring', meanDiameterMm: 10, sideMm: 2 }, [6, 4]],
  [{ kind: 'dome', blankDiameterMm: 15, thicknessMm: 0.5 }, [7.5]],
  [{ kind: 'ball', diameterMm: 2.2 }, [1.1]],
])('drawDesign() draws %o as circles of its radii', (form, wantedMm) => {
  expect(radiiMm(draw(alone(form)))).toEqual(wantedMm);
});

test('the pendant of the demo: bezel on its place on the plate, bail above the edge it hangs from', () => {
  const drawn = draw(designs.pendant);
  const [plate] = drawn.outlines;
  const [left, bottom] = [Math.min(...plate!.map(({ x }) => x)), Math.max(...plate!.map(({ y }) => y))];
  const mm = ({ cx, cy }: { cx: number; cy: number }) => [
    Number(((cx - left) / drawn.unitsPerMm).toFixed(1)),
    Number(((bottom - cy) / drawn.unitsPerMm).toFixed(1)),
  ];
  const [wall, , bail] = drawn.circles.filter(({ filled, r }) => !filled && r !== 11);
  expect(mm(wall!)).toEqual([15, 8]);
  // Outside diameter 6.4: its middle is 3.2 above the edge at 20.
  expect(mm(bail!)).toEqual([15, 23.2]);
});

test('on a finger ring the cup stands on the rim, and its bezel on the cup', () => {
  const drawn = draw(designs.grainRing);
  const shank = drawn.circles.find(({ r }) => Math.abs(r / drawn.unitsPerMm - 10.5) < 0.05)!;
  const above = (corners: DrawnSvg['outlines'][number]) =>
    [Math.max(...corners.map(({ y }) => y)), Math.min(...corners.map(({ y }) => y))].map((y) =>
      Number(((shank.cy - y) / drawn.unitsPerMm).toFixed(1)),
    );
  const [cup, wall] = drawn.outlines;
  expect([above(cup!), above(wall!)]).toEqual([
    [10.5, 11.1],
    [11.1, 14.1],
  ]);
});

const DEMO = { ...designs, ...larger };

test.each(Object.entries(DEMO))('the %s of the demo: every joint has its number once, every part its name', (_name, design) => {
  const svg = drawDesign(design, { words });
  expect(svg).not.toMatch(/NaN|Infinity|undefined|null/);
  expect(svg).toBe(drawDesign(structuredClone(design), { words }));
  const { texts } = readSvg(svg);
  for (const [index, joint] of design.joints.entries()) {
    expect(texts.filter((text) => text === String(index + 1))).toHaveLength(1);
    expect(texts).toContain(joint.id);
  }
  for (const { id, name } of design.parts) expect(texts).toContain(name ?? id);
});

test('the demo has pieces to draw', () => {
  expect(Object.keys(DEMO)).toHaveLength(8);
});

test('drawDesign() without labels shows the same lines, and no word but the length of its bar', () => {
  const plain = readSvg(drawDesign(designs.pendant, { words, labelled: false }));
  expect(plain.texts).toEqual(['10 mm']);
  expect(radiiMm(plain)).toEqual(radiiMm(draw(designs.pendant)));
});

test('parts that nothing joins lie beside each other, and identical ones are drawn once', () => {
  const form: Form = { kind: 'disc', diameterMm: 10, thicknessMm: 1 };
  const design: Design = {
    parts: [
      { id: 'a', metal: 'sterling-925', form },
      { id: 'b', metal: 'sterling-925', form, count: 3 },
    ],
    joints: [],
  };
  const drawn = draw(design);
  const [a, b] = drawn.circles.filter(({ filled }) => !filled);
  expect(Math.hypot(a!.cx - b!.cx, a!.cy - b!.cy)).toBeGreaterThan(a!.r + b!.r);
  expect(drawn.texts).toContain('b × 3');
});

test('drawDesign() lets no name become markup, and refuses what is no design', () => {
  const named: Design = {
    parts: [{ id: 'a', name: '<script>x</script>', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 } }],
    joints: [],
  };
  const svg = drawDesign(named, { words: { title: '</title><b onload="x">', description: '\u0000&' } });
  expect(svg).not.toMatch(/<script|<b /);
  expect(svg).not.toContain('\u0000');
  expect(svg).toContain('&lt;script&gt;x');
  expect(svg).toContain('<title>&lt;/title&gt;&lt;b onload=&quot;x&quot;&gt;</title><desc>\u{FFFD}&amp;</desc>');
  expect(() => drawDesign({ parts: [], joints: [] }, { words })).toThrow('at least one');
  expect(() => drawDesign(alone({ kind: 'ball', diameterMm: Number.NaN }), { words })).toThrow('diameterMm');
  const elsewhere: Design = { ...named, joints: [{ id: 'j', kind: 'jump_ring', closes: 'b', gapMm: 0.05 }] };
  expect(() => drawDesign(elsewhere, { words })).toThrow('one of a');
});
