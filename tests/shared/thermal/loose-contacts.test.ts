import { expect, test } from 'vitest';
import type { Contact, Design } from '../../../shared/design/design.ts';
import { jointDistances } from '../../../shared/thermal/joint-distance.ts';
import { buildPiece } from '../../../shared/thermal/piece-model.ts';
import { buildPieceNetwork } from '../../../shared/thermal/piece-network.ts';
import { simulateHeat } from '../../../shared/thermal/simulate-heat.ts';
import { links } from '../../../seed/larger-designs.ts';
import { grainedWire, SOLDERS } from '../../support/heated-pieces.ts';

const withContacts = (contacts: readonly Contact[]): Design => ({ ...links, contacts });
const touching = (conductanceWPerK: number) => withContacts(links.contacts!.map((each) => ({ ...each, conductanceWPerK })));
const heat = (design: Design, made: readonly string[] = []) =>
  simulateHeat({ design, bench: { torch: 'small', support: 'air' }, targets: ['third-closed'], made, solders: SOLDERS });

test('a loose contact is a plain conductance between the two parts: 100 K/W where nobody says', () => {
  const grain = { id: 'loose', metal: 'sterling-925', form: { kind: 'ball', diameterMm: 3 } } as const;
  const wire = grainedWire({ made: 50 });
  const design: Design = {
    parts: [...wire.parts, grain],
    joints: wire.joints,
    contacts: [{ kind: 'loose', between: [{ part: 'made' }, { part: 'loose' }] }],
  };
  const piece = buildPiece(design, { targets: ['made'], made: [] }, { barMm: 1.5, plateMm: 2 });
  expect(piece.parts.map(({ id }) => id)).toEqual(['wire', 'made', 'loose']);
  const { builder } = buildPieceNetwork(piece, { support: 'air', layered: false, lossFactor: 1 });
  const { edgeFrom, edgeTo, edgeContactKPerW } = builder.build(20);
  const [made, loose] = [piece.parts[1]!.firstCell, piece.parts[2]!.firstCell];
  const between = [...edgeFrom.keys()].filter((e) => edgeTo[e] === loose || edgeFrom[e] === loose);
  expect(between.map((e) => [edgeFrom[e], edgeTo[e], edgeContactKPerW[e]])).toEqual([[made, loose, expect.closeTo(100, 9)]]);
});

const peaks = (conductanceWPerK: number) => {
  const { inFire, bySolder } = heat(touching(conductanceWPerK));
  expect(inFire).toEqual(links.parts.map(({ id }) => id));
  return links.parts.map(({ id }) => bySolder['medium']!.parts[id]!.peakC);
};

test('a chain is heated as it hangs, closed links and open ones, and lags more the farther off and the looser', () => {
  const [first, second, third, fourth, fifth] = peaks(0.01) as [number, number, number, number, number];
  expect(third).toBeGreaterThan(748);
  expect(second).toBeLessThan(third - 100);
  expect(first).toBeLessThan(second - 100);
  // The chain is the same to either side of its middle link, but for which way round a gap lies.
  expect(Math.abs(second - fourth)).toBeLessThan(4);
  expect(Math.abs(first - fifth)).toBeLessThan(8);
  const looser = peaks(0.003);
  const tighter = peaks(0.03);
  expect(looser[1]).toBeLessThan(second - 20);
  expect(tighter[1]).toBeGreaterThan(second + 20);
});

test('what does not touch is not in the fire, and the joints of what does are read', () => {
  const cut = withContacts(links.contacts!.slice(0, 2));
  const { inFire, bySolder } = heat(cut, ['first-closed', 'fourth-closed']);
  expect(inFire).toEqual(['first', 'second', 'third']);
  expect(Object.keys(bySolder['medium']!.joints)).toEqual(['first-closed']);
});

test('distances run through loose contacts, 0.2 mm each', () => {
  const distanceMm = jointDistances(links);
  // On a mean circle of 7.2 mm a quarter is a chord of 7.2/√2 mm, and across the next link it is the whole 7.2 mm.
  const quarterMm = 7.2 / Math.SQRT2;
  expect(distanceMm('first-closed', 'second-closed')).toBeCloseTo(2 * quarterMm + 0.2, 6);
  expect(distanceMm('first-closed', 'third-closed')).toBeCloseTo(2 * quarterMm + 7.2 + 0.4, 6);
  expect(jointDistances(withContacts([]))('first-closed', 'second-closed')).toBe(Infinity);
});

test('a conductance of nothing is refused', () => {
  expect(() => heat(touching(0))).toThrow(/conductanceWPerK/);
});
