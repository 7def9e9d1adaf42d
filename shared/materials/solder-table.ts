import type { Composition } from './density-from-composition.ts';
import type { Sourced, Standing } from './sourced.ts';

/** A solder as tables print it. The word of a grade decides nothing: what counts is on the packet in the drawer. */
export interface SolderEntry {
  name: string;
  /** Parts by mass in a hundred. */
  composition: Sourced<Composition>;
  /** Begins to melt. */
  solidusC: Sourced;
  /** Flows. */
  liquidusC: Sourced;
}

const of = <T>(value: T, standing: Standing, source: string): Sourced<T> => ({ value, standing, source });

const AWS_1981 = "AWS A5.8, table of 1981 as reprinted in Machinery's Handbook, 31st ed., Table 1a";
const AWS_LATER = 'AWS A5.8M/A5.8:2011, table of silver filler metals';
const PRACTICE = 'common practice of the trade, no source';
const HANDBOOKS = 'metalsmithing handbooks of the US tradition, columns "melt" and "flow" in °F';

/** The grades a silversmith asks for, highest first. */
export const SOLDER_GRADES = {
  'extra-hard': {
    name: 'Extra hard (enamelling)',
    composition: of({ Ag: 80, Cu: 16, Zn: 4 }, 'memory', PRACTICE),
    solidusC: of(727, 'memory', `${HANDBOOKS}: 1340 °F; other printed starts run from 740 to 771`),
    liquidusC: of(810, 'memory', `${HANDBOOKS}: 1490 °F; over the solidus of sterling`),
  },
  eutectic: {
    name: 'Eutectic',
    composition: of({ Ag: 72, Cu: 28 }, 'found', `${AWS_1981}, BAg-8`),
    solidusC: of(779, 'found', `${AWS_1981}, BAg-8`),
    liquidusC: of(779, 'found', `${AWS_1981}, BAg-8`),
  },
  hard: {
    name: 'Hard',
    composition: of({ Ag: 75, Cu: 22, Zn: 3 }, 'memory', PRACTICE),
    solidusC: of(740, 'found', 'a tutorial, 1365 °F for 75 % silver; common practice says 740 too'),
    liquidusC: of(788, 'memory', `${HANDBOOKS}: 1450 °F; others print from 775`),
  },
  medium: {
    name: 'Medium',
    composition: of({ Ag: 70, Cu: 20, Zn: 10 }, 'memory', `${AWS_LATER}, BAg-10; common practice too`),
    solidusC: of(691, 'memory', `${AWS_LATER}, BAg-10, 1275 °F; common practice says 691 too`),
    liquidusC: of(738, 'memory', `${AWS_LATER}, BAg-10, 1360 °F`),
  },
  easy: {
    name: 'Easy',
    composition: of({ Ag: 65, Cu: 20, Zn: 15 }, 'found', 'GOST 19738-74, PSr65; common practice too'),
    solidusC: of(671, 'memory', `${AWS_LATER}, BAg-9, 1240 °F; common practice says 670`),
    liquidusC: of(718, 'memory', `${AWS_LATER}, BAg-9, 1325 °F`),
  },
  'extra-easy': {
    name: 'Extra easy',
    composition: of({ Ag: 56, Cu: 22, Zn: 17, Sn: 5 }, 'found', `${AWS_1981}, BAg-7`),
    solidusC: of(618, 'found', `${AWS_1981}, BAg-7, 1145 °F`),
    liquidusC: of(652, 'found', `${AWS_1981}, BAg-7, 1205 °F`),
  },
} as const satisfies Record<string, SolderEntry>;

/** A row of the standard, its temperatures in °F as printed. Of some the composition was found and the temperatures were not. */
const row = (
  standing: 'found' | 'memory',
  composition: Composition,
  solidusF: number,
  liquidusF: number,
  ofComposition = standing,
): Omit<SolderEntry, 'name'> => {
  const sourceOf = { found: AWS_1981, memory: AWS_LATER };
  const source = sourceOf[standing];
  return {
    composition: of(composition, ofComposition, sourceOf[ofComposition]),
    solidusC: of(Math.round((solidusF - 32) / 1.8), standing, `${source}, ${solidusF} °F`),
    liquidusC: of(Math.round((liquidusF - 32) / 1.8), standing, `${source}, ${liquidusF} °F`),
  };
};

/** Filler metals of the standard, to read what was used before by: never offered, and those with cadmium never to be heated. */
export const REFERENCE_FILLERS: Readonly<Record<string, Omit<SolderEntry, 'name'>>> = {
  'BAg-1': row('found', { Ag: 45, Cu: 15, Zn: 16, Cd: 24 }, 1125, 1145),
  'BAg-1a': row('memory', { Ag: 50, Cu: 15.5, Zn: 16.5, Cd: 18 }, 1160, 1175, 'found'),
  'BAg-2': row('memory', { Ag: 35, Cu: 26, Zn: 21, Cd: 18 }, 1125, 1295, 'found'),
  'BAg-2a': row('found', { Ag: 30, Cu: 27, Zn: 23, Cd: 20 }, 1125, 1310),
  'BAg-3': row('found', { Ag: 50, Cu: 15.5, Zn: 15.5, Cd: 16, Ni: 3 }, 1170, 1270),
  'BAg-4': row('found', { Ag: 40, Cu: 30, Zn: 28, Ni: 2 }, 1240, 1435),
  'BAg-5': row('found', { Ag: 45, Cu: 30, Zn: 25 }, 1250, 1370),
  'BAg-6': row('found', { Ag: 50, Cu: 34, Zn: 16 }, 1270, 1425),
  'BAg-7': row('found', { Ag: 56, Cu: 22, Zn: 17, Sn: 5 }, 1145, 1205),
  'BAg-8': row('found', { Ag: 72, Cu: 28 }, 1435, 1435),
  'BAg-9': row('memory', { Ag: 65, Cu: 20, Zn: 15 }, 1240, 1325),
  'BAg-10': row('memory', { Ag: 70, Cu: 20, Zn: 10 }, 1275, 1360),
  'BAg-13': row('found', { Ag: 54, Cu: 40, Zn: 5, Ni: 1 }, 1325, 1575),
  'BAg-13a': row('found', { Ag: 56, Cu: 42, Ni: 2 }, 1420, 1640),
  'BAg-18': row('found', { Ag: 60, Cu: 30, Sn: 10 }, 1115, 1325),
  'BAg-20': row('found', { Ag: 30, Cu: 38, Zn: 32 }, 1250, 1410),
  'BAg-21': row('found', { Ag: 63, Cu: 28.5, Sn: 6, Ni: 2.5 }, 1275, 1475),
  'BAg-22': row('found', { Ag: 49, Cu: 16, Zn: 23, Ni: 4.5, Mn: 7.5 }, 1260, 1290),
  'BAg-24': row('found', { Ag: 50, Cu: 20, Zn: 28, Ni: 2 }, 1220, 1305),
  'BAg-28': row('memory', { Ag: 40, Cu: 30, Zn: 28, Sn: 2 }, 1200, 1310),
  'BAg-34': row('memory', { Ag: 38, Cu: 32, Zn: 28, Sn: 2 }, 1200, 1330),
  'BAg-36': row('memory', { Ag: 45, Cu: 27, Zn: 25, Sn: 3 }, 1195, 1251),
  'BAg-37': row('memory', { Ag: 25, Cu: 40, Zn: 33, Sn: 2 }, 1270, 1435),
};
