import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Design } from '../../../shared/design/design.ts';
import type { Protection, SinkKind } from '../../../shared/design/plan.ts';
import { playHeat } from '../../../shared/thermal/heat-control.ts';
import type { HeatQuestion, SolderRun } from '../../../shared/thermal/heat-run.ts';
import { layHeat } from '../../../shared/thermal/heat-setup.ts';
import { jointDistances } from '../../../shared/thermal/joint-distance.ts';
import { createNetworkStepper } from '../../../shared/thermal/network-stepper.ts';
import { simulateHeat } from '../../../shared/thermal/simulate-heat.ts';
import { torchOf } from '../../../shared/thermal/torch.ts';
import { marchTo } from '../../../src/cases/heat-case-networks.ts';
import { anyHeat } from '../../support/any-heat.ts';
import { DEMO_DESIGNS, heatOf, lit } from '../../support/demo-heats.ts';
import { SOLDERS } from '../../support/heated-pieces.ts';
import { pendant } from '../../support/pendant.ts';

const easy = (question: HeatQuestion): SolderRun => simulateHeat(question).bySolder['easy']!;
const sinkAtMade = (sink: SinkKind): Protection => ({ kind: 'sink', sink, at: { joint: 'made' } });
const SINKS = ['tweezers', 'heavy_clamp', 'wet_pack'] as const;

test('heat from the flame is what the piece stores and what it loses, whatever lies in whatever fire', () => {
  fc.assert(
    fc.property(anyHeat, fc.boolean(), (question, layered) => {
      const { flows, end } = playHeat(lit(question, { layered }).program);
      for (const event of [...flows, end]) {
        if (!event) continue;
        // 0.27 % seen among 600 of these, 0.03 % with a tenth of the tolerance; under a wide shield next to no heat at all.
        expect(Math.abs(event.energyJ - event.storedJ - event.lostJ)).toBeLessThan(0.005 * event.energyJ + 1e-6);
      }
    }),
    { numRuns: 60 },
  );
});

test.each(Object.entries(DEMO_DESIGNS))('%s: simulateHeat() tells where the heat went, to half a percent', (_, design) => {
  const run = easy(heatOf(design, design.joints.at(-1)!.id));
  expect(Math.abs(run.storedJ! + run.lostJ! - run.energyJ!)).toBeLessThan(0.005 * run.energyJ!);
  expect(run.lostJ).toBeGreaterThan(0);
});

test('no cell is ever colder than the room or as hot as the gas', () => {
  fc.assert(
    fc.property(anyHeat, fc.boolean(), (question, layered) => {
      const { program } = lit(question, { layered });
      const { flows, end } = playHeat(program);
      for (const event of [...flows, end]) {
        if (!event) continue;
        for (const t of event.temperaturesC) expect(t).toBeGreaterThanOrEqual(20 - 1e-6);
        for (const t of event.temperaturesC) expect(t).toBeLessThan(program.flame.gasC);
        for (const peakC of event.partPeaksC) expect(peakC).toBeLessThan(program.flame.gasC);
      }
    }),
    { numRuns: 60 },
  );
});

test('with a sink no cell is hotter than without, at any moment of the same flame', () => {
  fc.assert(
    fc.property(anyHeat, fc.constantFrom(...SINKS), fc.double({ min: 1, max: 20, noNaN: true }), (question, sink, untilS) => {
      const after = (protections: Protection[]) => {
        const { laid, program } = lit({ ...question, protections });
        const { network } = program.stepper;
        // Its water outlasts these seconds.
        const warmed = new Float64Array(network.cellCount).fill(20);
        const values = marchTo(createNetworkStepper(network), warmed, untilS, { flame: program.flame, tolK: 0.1 });
        return values.slice(0, laid.piece.cellCount);
      };
      const bare = after([]);
      after([sinkAtMade(sink)]).forEach((t, i) => expect(t).toBeLessThanOrEqual(bare[i]! + 0.2));
    }),
    { numRuns: 40 },
  );
});

/**
 * A joint of one point, 3 mm or more from the target along the metal. On a wide one a sink cools the middle, and nearer by it cools the
 * target as well: the heat lasts longer, and the far end of the joint may come out hotter.
 */
const spotAway = anyHeat.filter((question) => {
  if (!(jointDistances(question.design)('target', 'made') >= 3)) return false;
  return layHeat(question).piece.joints.find(({ id }) => id === 'made')!.pairs.length === 1;
});

test('adding a sink never heats the joint it sits on in a heat that still flows, nor hastens it', () => {
  fc.assert(
    fc.property(spotAway, (given) => {
      // In air, so that both are decided by one model: on a block the weaker heat may be played over layers, the other not.
      const question = { ...given, bench: { torch: 'large', support: 'air' } as const, protections: [] };
      const bare = easy(question);
      for (const sink of SINKS) {
        const held = easy({ ...question, protections: [sinkAtMade(sink)] });
        if (held.flow === 'does_not_flow') continue;
        expect(held.joints['made']!.peakC).toBeLessThanOrEqual(bare.joints['made']!.peakC + 0.5);
        expect(held.timeToFlowS).toBeGreaterThanOrEqual(bare.timeToFlowS! * 0.995);
      }
    }),
    { numRuns: 40 },
  );
});

test('more power is sooner, and never stops a heat', () => {
  fc.assert(
    fc.property(anyHeat, fc.double({ min: 1.02, max: 3, noNaN: true }), (question, factor) => {
      const torch = torchOf(question.bench);
      const at = (powerW: number, layered = false) =>
        easy({ ...question, layered, bench: { ...question.bench, torch: { ...torch, powerW } } });
      const [less, more] = [at(torch.powerW), at(factor * torch.powerW)];
      if (less.flow === 'does_not_flow') return;
      expect(more.flow).not.toBe('does_not_flow');
      const isOneModel = less.layered === more.layered;
      // Where layers of block decided the weaker heat and a constant loss the stronger, the latter may be up to 10 % slower.
      expect(more.timeToFlowS).toBeLessThan(less.timeToFlowS! * (isOneModel ? 1.005 : 1.1));
      if (isOneModel) return;
      expect(less.layered).toBe(true);
      expect(at(factor * torch.powerW, true).timeToFlowS).toBeLessThan(less.timeToFlowS! * 1.005);
    }),
    { numRuns: 60 },
  );
});

const grain = (id: string) => ({ id, metal: 'sterling-925', form: { kind: 'ball', diameterMm: 2 } }) as const;
const grainOn = (id: string, at: object) =>
  ({
    id,
    kind: 'granule',
    between: [{ part: 'base', ...at }, { part: id }],
    diameterMm: 2,
    neckRadiusMm: 0.5,
    gapMm: 0,
  }) as const;

function grained(form: Design['parts'][number]['form'], at: Record<string, object>): HeatQuestion {
  return {
    design: {
      parts: [{ id: 'base', metal: 'sterling-925', form }, ...Object.keys(at).map(grain)],
      joints: Object.entries(at).map(([id, place]) => grainOn(id, place)),
    },
    bench: { torch: 'medium', support: 'brick' },
    targets: ['target'],
    made: Object.keys(at).filter((id) => id !== 'target'),
    solders: SOLDERS,
  };
}

test.each<[string, HeatQuestion]>([
  [
    'a plate',
    grained(
      { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 },
      {
        target: { xMm: 15, yMm: 10 },
        a: { xMm: 6, yMm: 4 },
        b: { xMm: 24, yMm: 4 },
        c: { xMm: 6, yMm: 16 },
        d: { xMm: 24, yMm: 16 },
      },
    ),
  ],
  [
    'a disc',
    grained(
      { kind: 'disc', diameterMm: 24, thicknessMm: 1 },
      { target: {}, a: { xMm: 7 }, b: { xMm: -7 }, c: { yMm: 7 }, d: { yMm: -7 } },
    ),
  ],
  [
    'a ring',
    grained(
      { kind: 'square_ring', meanDiameterMm: 60 / Math.PI, sideMm: 2 },
      { target: { alongMm: 30 }, a: { alongMm: 20 }, b: { alongMm: 40 } },
    ),
  ],
  [
    'a wire',
    grained(
      { kind: 'round_wire', lengthMm: 60, diameterMm: 2 },
      { target: { alongMm: 30 }, a: { alongMm: 21 }, b: { alongMm: 39 } },
    ),
  ],
])('%s that is symmetric about its target has a symmetric answer', (_, question) => {
  for (const run of Object.values(simulateHeat(question).bySolder)) {
    expect(run.flow).toBe('flows');
    const [first, ...others] = Object.values(run.joints).map(({ peakC }) => peakC);
    expect(others.length).toBeGreaterThan(0);
    for (const peakC of others) expect(peakC).toBeCloseTo(first!, 6);
  }
});

test('a plate turned over, either way, gives the same answer turned over', () => {
  const place = fc.record({ xMm: fc.double({ min: 0, max: 30, noNaN: true }), yMm: fc.double({ min: 0, max: 20, noNaN: true }) });
  const form = { kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 } as const;
  fc.assert(
    fc.property(place, place, (target, near) => {
      const peaks = [
        ({ xMm, yMm }: typeof target) => ({ xMm, yMm }),
        ({ xMm, yMm }: typeof target) => ({ xMm: 30 - xMm, yMm }),
        ({ xMm, yMm }: typeof target) => ({ xMm, yMm: 20 - yMm }),
      ].map((turn) => easy(grained(form, { target: turn(target), near: turn(near) })).joints['near']!.peakC);
      for (const peakC of peaks) expect(peakC).toBeCloseTo(peaks[0]!, 3);
    }),
    { numRuns: 15 },
  );
});

test('a joint entered from its other side is the same joint', () => {
  const joints = pendant.joints.map((joint) =>
    joint.closes === undefined ? { ...joint, between: [joint.between[1], joint.between[0]] as const } : joint,
  );
  const [one, other] = [pendant, { ...pendant, joints }].map((design) => easy(heatOf(design, 'bail-on'))) as [
    SolderRun,
    SolderRun,
  ];
  expect(other.timeToFlowS).toBeCloseTo(one.timeToFlowS!, 9);
  for (const [id, { peakC }] of Object.entries(one.joints)) expect(other.joints[id]!.peakC).toBeCloseTo(peakC, 9);
});
