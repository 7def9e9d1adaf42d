import fc from 'fast-check';
import { expect, test } from 'vitest';
import { meltingLadder, type LadderJoint } from '../../../shared/drawing/melting-ladder.ts';

const words = {
  title: 'Heat 2',
  description: 'One joint',
  flow: 'flow 748 °C',
  temperature: (celsius: number) => `${celsius} °C`,
};

const aJoint = fc
  .record({
    solidusC: fc.integer({ min: 550, max: 760 }),
    windowK: fc.integer({ min: 0, max: 120 }),
    peakC: fc.double({ min: 60, max: 900, noNaN: true }),
    uncertaintyK: fc.double({ min: 5, max: 60, noNaN: true }),
  })
  .map(({ windowK, ...joint }): LadderJoint => {
    const liquidusC = joint.solidusC + windowK;
    const verdict = joint.peakC < joint.solidusC ? 'solid' : joint.peakC < liquidusC ? 'softens' : 'runs';
    return { name: 'wall-seam', number: 1, says: 'softens', liquidusC, verdict, ...joint };
  });

/** How high the arms of the bracket and the dot stand; the page counts downward. */
function heightsIn(svg: string): { liquidus: number; solidus: number; dot: number }[] {
  return [
    ...svg.matchAll(
      /class="ladder-window" d="M[-\d.]+ ([-\d.]+)h-18V([-\d.]+)[\s\S]*?class="ladder-dot[^"]*" (?:cx="[-\d.]+" cy="([-\d.]+)"|d="M[-\d.]+ ([-\d.]+)l14)/g,
    ),
  ].map(([, liquidus, solidus, cy, cross]) => ({
    liquidus: Number(liquidus),
    solidus: Number(solidus),
    dot: cy === undefined ? Number(cross) + 7 : Number(cy),
  }));
}

test('meltingLadder() puts the dot below, in or above the bracket as the joint is solid, soft or running', () => {
  fc.assert(
    fc.property(fc.array(aJoint, { minLength: 1, maxLength: 12 }), fc.integer({ min: 600, max: 900 }), (joints, flowC) => {
      const heights = heightsIn(meltingLadder({ flowC, joints, words }));
      expect(heights).toHaveLength(joints.length);
      heights.forEach(({ liquidus, solidus, dot }, index) => {
        const { solidusC, liquidusC, peakC } = joints[index]!;
        expect(solidus).toBeGreaterThanOrEqual(liquidus);
        // Drawn to a hundredth of a unit.
        if (peakC < solidusC - 0.5) expect(dot).toBeGreaterThan(solidus - 0.02);
        if (peakC > liquidusC + 0.5) expect(dot).toBeLessThan(liquidus + 0.02);
        if (peakC > solidusC + 0.5 && peakC < liquidusC - 0.5) {
          expect(dot).toBeLessThan(solidus + 0.02);
          expect(dot).toBeGreaterThan(liquidus - 0.02);
        }
      });
    }),
  );
});

test('meltingLadder() is the same to scale: equal steps of temperature are equal steps on the page', () => {
  const joints = [650, 700, 750].map((peakC, index): LadderJoint => ({
    name: `j${index}`,
    number: index + 1,
    solidusC: 691,
    liquidusC: 738,
    peakC,
    uncertaintyK: 15,
    says: '',
    verdict: 'solid',
  }));
  const [a, b, c] = heightsIn(meltingLadder({ flowC: 748, joints, words })).map(({ dot }) => dot);
  expect(a! - b!).toBeCloseTo(b! - c!, 1);
});

test('meltingLadder() holds no markup of a name, and draws a heat without earlier joints', () => {
  const joint: LadderJoint = {
    name: '<b>&"',
    number: 1,
    solidusC: 691,
    liquidusC: 738,
    peakC: 700,
    uncertaintyK: 15,
    says: 'x',
    verdict: 'softens',
  };
  expect(meltingLadder({ flowC: null, joints: [joint], words })).toContain('&lt;b&gt;&amp;&quot;');
  expect(meltingLadder({ flowC: 748, joints: [], words })).toMatch(/^<svg[^>]*viewBox="0 0 \d/);
});
