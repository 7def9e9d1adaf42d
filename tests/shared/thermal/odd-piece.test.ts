/** The heat model once more, by other means: own geometry, all shortest ways by Floyd and Warshall, explicit Euler steps. */

import { expect, test } from 'vitest';
import type { Design, Form } from '../../../shared/design/design.ts';
import { simulateHeat } from '../../../shared/thermal/simulate-heat.ts';

const washer = { kind: 'washer', outsideDiameterMm: 26, insideDiameterMm: 6, thicknessMm: 1 } as const;
const tube = { kind: 'tube', lengthMm: 14, outsideDiameterMm: 7, insideDiameterMm: 5 } as const;
const ring = { kind: 'square_ring', meanDiameterMm: 9, sideMm: 1.5 } as const;
const wire = { kind: 'half_round_wire', lengthMm: 18, widthMm: 4, heightMm: 1.4 } as const;
const cone = { kind: 'cone', smallDiameterMm: 12, largeDiameterMm: 18, slantMm: 7, thicknessMm: 0.6 } as const;

const part = (id: string, form: Form) => ({ id, metal: 'sterling-925', form });
const piece: Design = {
  parts: [part('washer', washer), part('tube', tube), part('ring', ring), part('wire', wire), part('cone', cone)],
  joints: [
    { id: 'stem', kind: 'loop_base', between: [{ part: 'washer' }, { part: 'tube', alongMm: 0 }], gapMm: 0.05 },
    {
      id: 'ring-on',
      kind: 'tee',
      between: [
        { part: 'tube', alongMm: 12 },
        { part: 'ring', alongMm: 0 },
      ],
      lengthMm: 2,
      thicknessMm: 1.5,
      gapMm: 0.05,
    },
    { id: 'cup', kind: 'loop_base', between: [{ part: 'washer' }, { part: 'cone', alongMm: 0 }], gapMm: 0.05 },
    {
      id: 'tail',
      kind: 'lap',
      between: [
        { part: 'washer', xMm: 10, yMm: 0 },
        { part: 'wire', alongMm: 3 },
      ],
      widthMm: 4,
      overlapMm: 3,
      gapMm: 0.05,
    },
  ],
};

// Sterling, W, mm, g, K: density, k = 0.36 − 3e-5 (T − 20), c = 0.245 + 4.5e-5 (T − 20), emissivity.
const RHO = 10.36e-3;
const EPS_SIGMA = 0.35 * 5.670374419e-14;
const [POWER_W, SIGMA_MM, GAS_C] = [250, 10, 1500];

interface Body {
  nx: number;
  ny: number;
  wide: number;
  high: number;
  /** Across one step in x, and in y. */
  areaX: number;
  areaY: number;
  cellG: number;
  closed: boolean;
  chordMm: number | null;
  surface: (x: number, y: number) => number;
  lossMm: number;
  contact: number;
  flameShare: number;
}

function bar(lengthMm: number, sectionMm2: number, perimeterMm: number, ringMm: number | null = null): Body {
  const nx = Math.max(4, Math.ceil(lengthMm / 1.5));
  const lossMm = perimeterMm / Math.PI;
  return {
    nx,
    ny: 1,
    wide: lengthMm,
    high: 0,
    areaX: sectionMm2,
    areaY: 0,
    cellG: (RHO * sectionMm2 * lengthMm) / nx,
    closed: ringMm !== null,
    chordMm: ringMm,
    surface: (x) => (perimeterMm * lengthMm) / nx + (ringMm === null && (x === 0 || x === nx - 1) ? sectionMm2 : 0),
    lossMm,
    contact: 0.15,
    flameShare: 0.7 * Math.min(2.2, Math.max(0.8, Math.sqrt(4 / lossMm))),
  };
}

function plate(wide: number, high: number, thickMm: number, roundMm: number | null): Body {
  const [nx, ny] = [Math.max(4, Math.ceil(wide / 2)), Math.max(3, Math.ceil(high / 2))];
  const [dx, dy] = [wide / nx, high / ny];
  return {
    nx,
    ny,
    wide,
    high,
    areaX: thickMm * dy,
    areaY: thickMm * dx,
    cellG: RHO * dx * dy * thickMm,
    closed: roundMm !== null,
    chordMm: roundMm,
    surface(x, y) {
      let sum = (roundMm === null ? 2 : 1.5) * dx * dy;
      if (roundMm === null && (x === 0 || x === nx - 1)) sum += thickMm * dy;
      if (y === 0 || y === ny - 1) sum += thickMm * dx;
      return sum;
    },
    lossMm: Math.sqrt(wide * high),
    contact: roundMm === null ? 0.45 : 0.15,
    flameShare: 0.5,
  };
}

const side = Math.sqrt((Math.PI / 4) * (26 ** 2 - 6 ** 2));
const arcR = (2 ** 2 + 1.4 ** 2) / (2 * 1.4);
const half = Math.asin(2 / arcR);
const bodies = [
  plate(side, side, 1, null),
  bar(14, (Math.PI / 4) * (7 ** 2 - 5 ** 2), Math.PI * 7),
  bar(Math.PI * 9, 1.5 ** 2, 6, 9),
  bar(18, (arcR ** 2 / 2) * (2 * half - Math.sin(2 * half)), 4 + 2 * arcR * half),
  plate(Math.PI * 15, 7, 0.6, 15),
];

type Spot = [body: number, xMm: number, yMm: number];
const clamp = (value: number, most: number) => Math.min(most, Math.max(0, value));
const onWasher = (x: number, y: number): Spot => [0, clamp(side / 2 + x, side), clamp(side / 2 + y, side)];
const turns = (count: number) => Array.from({ length: count }, (_, k) => k / count);
const onCircle = (radius: number, turn: number) =>
  onWasher(radius * Math.cos(2 * Math.PI * turn), radius * Math.sin(2 * Math.PI * turn));
const joints: Record<string, { areaMm2: number; pairs: [Spot, Spot][] }> = {
  stem: { areaMm2: Math.PI * 6 * 1, pairs: turns(12).map((turn) => [onCircle(3, turn), [1, 0, 0]]) },
  'ring-on': {
    areaMm2: 3,
    pairs: [-1, 0, 1].map((s) => [
      [1, 12 + s, 0],
      [2, (s + Math.PI * 9) % (Math.PI * 9), 0],
    ]),
  },
  cup: { areaMm2: Math.PI * 12 * 0.6, pairs: turns(24).map((turn) => [onCircle(6, turn), [4, turn * Math.PI * 15, 0]]) },
  tail: { areaMm2: 12, pairs: [-2, 0, 2].map((s) => [onWasher(10 + s, 0), [3, 3 + s, 0]]) },
};
const allPairs = Object.values(joints).flatMap(({ pairs }) => pairs);

function withinMm([b, x1, y1]: Spot, [, x2, y2]: Spot): number {
  const { chordMm } = bodies[b]!;
  return Math.hypot(chordMm === null ? x1 - x2 : chordMm * Math.sin((x1 - x2) / chordMm), y1 - y2);
}

const nodes = allPairs.flat();
const between = nodes.map((a, i) =>
  nodes.map((b, j) => Math.min(a[0] === b[0] ? withinMm(a, b) : Infinity, i !== j && i >> 1 === j >> 1 ? 0.2 : Infinity)),
);
for (const k of nodes.keys())
  for (const i of nodes.keys())
    for (const j of nodes.keys()) between[i]![j] = Math.min(between[i]![j]!, between[i]![k]! + between[k]![j]!);

function wayMm(from: Spot, to: Spot): number {
  let least = from[0] === to[0] ? withinMm(from, to) : Infinity;
  nodes.forEach((a, i) => {
    if (a[0] !== from[0]) return;
    nodes.forEach((b, j) => {
      if (b[0] === to[0]) least = Math.min(least, withinMm(from, a) + between[i]![j]! + withinMm(b, to));
    });
  });
  return least;
}

const cells = bodies.flatMap((body, b) =>
  Array.from({ length: body.nx * body.ny }, (_, c) => {
    const [x, y] = [c % body.nx, Math.floor(c / body.nx)];
    const at: Spot = [b, ((x + 0.5) * body.wide) / body.nx, ((y + 0.5) * body.high) / body.ny];
    return { body, at, surface: body.surface(x, y), x, y };
  }),
);
const firstOf = bodies.map((body) => cells.findIndex((cell) => cell.body === body));

function axis(at: number, count: number): [number, number][] {
  const u = Math.min(count - 1, Math.max(0, at - 0.5));
  const low = Math.min(count - 2, Math.floor(u));
  return count === 1
    ? [[0, 1]]
    : [
        [low, 1 - u + low],
        [low + 1, u - low],
      ];
}

/** Cells about a spot and their shares. */
function shares([b, xMm, yMm]: Spot): [cell: number, share: number][] {
  const { nx, ny, wide, high } = bodies[b]!;
  return axis((xMm / wide) * nx, nx).flatMap(([x, p]) =>
    axis(ny === 1 ? 0 : (yMm / high) * ny, ny).map(([y, q]): [number, number] => [firstOf[b]! + x + y * nx, p * q]),
  );
}

test('simulateHeat() of a washer with cone, tube, square ring and half-round wire is what explicit steps come to', () => {
  const solders = [{ id: 'easy', liquidusC: 718 }];
  const tilt = { tiltDeg: 30, towards: 'ring-on' };
  const made = ['stem', 'ring-on', 'cup'];
  const bench = { torch: 'medium', support: 'brick' } as const;
  const run = simulateHeat({ design: piece, bench, targets: ['tail'], made, solders, flame: tilt }).bySolder['easy']!;
  expect(run.flow).toBe('flows');

  // From the middle of the joint on the washer, the heavier part, 0.6 spreads toward its centre.
  const aim = onWasher(10 - 0.6 * SIGMA_MM, 0);
  const lean: Spot = [1, 12, 0];
  const b = wayMm(aim, lean);
  const flame = cells.map(({ body, at, surface }) => {
    const d = wayMm(aim, at);
    const cosine = d === 0 ? 0 : clamp(1 + (d ** 2 + b ** 2 - wayMm(lean, at) ** 2) / (2 * d * b), 2) - 1;
    const core = (0.65 * POWER_W) / (2 * Math.PI * SIGMA_MM ** 2 * (GAS_C - 20));
    const skirt = (0.35 * POWER_W) / (2 * Math.PI * (2 * SIGMA_MM) ** 2 * (GAS_C - 20));
    const [near, far] = [Math.exp(-(d ** 2) / (2 * SIGMA_MM ** 2)), Math.exp(-d / (2 * SIGMA_MM))];
    return {
      exchange: (core * near + skirt * far * (1 + Math.sin(Math.PI / 6) * cosine)) * body.flameShare * surface,
      kept: 1 - 0.8 * Math.max(near, far),
    };
  });
  const bridges = Object.values(joints).flatMap(({ areaMm2, pairs }) =>
    pairs.flatMap(([p, q]) =>
      shares(p).flatMap(([i, u]) => shares(q).map(([j, v]) => [i, j, (areaMm2 / pairs.length) * u * v] as const)),
    ),
  );
  const neighbours = cells.flatMap(({ body, x, y }, i) => [
    ...(x + 1 < body.nx || body.closed
      ? [[i, x + 1 < body.nx ? i + 1 : i + 1 - body.nx, body.wide / body.nx / body.areaX] as const]
      : []),
    ...(y + 1 < body.ny ? [[i, i + body.nx, body.high / body.ny / body.areaY] as const] : []),
  ]);
  const probe = (t: readonly number[], spots: readonly Spot[]) =>
    spots.map((spot) => shares(spot).reduce((sum, [cell, share]) => sum + share * t[cell]!, 0));

  let t = cells.map(() => 20);
  let timeS = 0;
  const dtS = 0.001;
  while (Math.min(...probe(t, joints['tail']!.pairs.flat())) < 728) {
    const now = t;
    const heat = cells.map(({ body, surface }, i) => {
      const above = now[i]! - 20;
      const airWPerMm2K = (11 + 31 / body.lossMm) * 1e-6 * flame[i]!.kept;
      const free = surface * (1 - body.contact);
      const radiated = EPS_SIGMA * ((now[i]! + 273.15) ** 4 - 293.15 ** 4);
      return (
        flame[i]!.exchange * (GAS_C - now[i]!) - free * (airWPerMm2K * above + radiated) - 20e-6 * surface * body.contact * above
      );
    });
    const pass = (i: number, j: number, watts: number) => {
      heat[i]! -= watts;
      heat[j]! += watts;
    };
    for (const [i, j, conductance] of bridges) pass(i, j, conductance * (now[i]! - now[j]!));
    // Half a cell of each conductivity in series.
    const k = now.map((c) => 0.36 - 3e-5 * (c - 20));
    for (const [i, j, perMm] of neighbours) pass(i, j, (now[i]! - now[j]!) / ((perMm / 2) * (1 / k[i]! + 1 / k[j]!)));
    t = now.map((c, i) => c + (dtS * heat[i]!) / (cells[i]!.body.cellG * (0.245 + 4.5e-5 * (c - 20))));
    timeS += dtS;
  }

  expect(Math.abs(run.timeToFlowS! / timeS - 1)).toBeLessThan(0.005);
  for (const id of made) {
    const { timesS, temperaturesC } = run.joints[id]!.history;
    const modelC = temperaturesC[timesS.indexOf(run.timeToFlowS!)]!;
    expect(Math.abs(modelC - Math.max(...probe(t, joints[id]!.pairs.flat()))), id).toBeLessThan(0.6);
  }
});
