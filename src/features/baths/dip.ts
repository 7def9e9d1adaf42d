import { copperIn, pickleDip } from '../../../shared/costing/pickle-dip.ts';
import { Decimal } from '../../../shared/decimal.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import { getSettings } from '../settings/index.ts';
import { bathClocks, TIRING_FRACTION } from './bath-clocks.ts';
import { bathsInStates, findBath, insertDip, updateBath, type BathRow, type DipRow } from './baths.store.ts';

const USABLE: readonly string[] = ['fresh', 'in_use', 'tiring'];

/** What goes into the bath after a heat. */
export interface Dipped {
  heatId: string;
  /** The whole wetted surface of every part in the fire. */
  areaCm2: number;
  /** Of the bath, where somebody looked. */
  bathC: number | null;
  at: Date;
}

/** @throws {Problem} not-found, or condition-not-met with the baths that may be taken in its place */
export function holdBathFit(db: Db, bathId: string): BathRow {
  const bath = findBath(db, bathId);
  if (!bath) throw new Problem('not-found', `Cannot find pickle bath ${bathId}`);
  if (USABLE.includes(bath.state)) return bath;
  const offers = bathsInStates(db, USABLE).map(({ id, number, state }) => ({ bathId: id, number, state }));
  throw new Problem('condition-not-met', `Cannot dip in bath ${bath.number}: it is ${bath.state}. Choose another or renew it`, {
    bathId,
    offers,
  });
}

/** Counts what a heat takes from a bath and leaves in it: the bath is in use with it, tiring at 80 % of a limit, spent at the limit. */
export function bookDip(tx: Db, by: WrittenBy, bath: BathRow, { heatId, areaCm2, bathC, at }: Dipped): DipRow {
  const { flux, pickle } = getSettings(tx);
  const area = new Decimal(areaCm2);
  const boraxG = area.times(flux.gPerCm2).times(flux.boraxFraction);
  const { acid, strengthGPerL } = bath;
  // Of an acid that is not known the oxide is the same, and what it costs is not counted.
  const { cuoG, acidG } = pickleDip(
    { areaCm2: area, boraxG },
    { ...pickle, strengthGPerL, acid: acid === 'other' ? 'bisulphate' : acid },
  );
  const dip = insertDip(tx, {
    id: newId(by.at),
    bathId: bath.id,
    heatId,
    areaCm2,
    copperG: copperIn(cuoG).toNumber(),
    acidG: acid === 'other' ? null : acidG.toNumber(),
    bathC,
    at: at.toISOString(),
    recordedAt: by.at.toISOString(),
    personId: by.personId,
  });
  writeJournal(tx, by, { what: 'bath-dip', id: dip.id, after: dip });
  const inUse = bath.state === 'fresh' ? change(tx, by, bath, 'in_use') : bath;
  const { fraction } = bathClocks(tx, bath);
  const tiring = fraction >= TIRING_FRACTION && inUse.state === 'in_use' ? change(tx, by, inUse, 'tiring') : inUse;
  if (fraction >= 1) change(tx, by, tiring, 'spent');
  return dip;
}

function change(tx: Db, by: WrittenBy, before: BathRow, state: string): BathRow {
  const after = updateBath(tx, before.id, { state, stateReason: null, version: before.version + 1 });
  writeJournal(tx, by, { what: 'pickle-bath', id: before.id, before, after });
  return after;
}
