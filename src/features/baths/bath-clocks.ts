import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';
import { dipSumsOf, type BathRow } from './baths.store.ts';

/** From here on a bath is tiring; at 1 it is spent. */
export const TIRING_FRACTION = 0.8;

export interface BathClocks {
  dips: number;
  copper: { usedG: number; limitG: number; fraction: number };
  copperGPerL: number;
  acidUsed: { usedG: number; limitG: number; fraction: number } | null;
  fraction: number;
}

/** A bath has two clocks, copper and acid: what the heats that went in took of each. */
export function bathClocks(
  db: Db,
  { id, acid, volumeL, strengthGPerL, copperLimitGPerL }: BathRow,
  { usableAcidFraction } = getSettings(db).pickle,
): BathClocks {
  const { dips, copperG, acidG } = dipSumsOf(db, id);
  const copper = clock(copperG, volumeL * copperLimitGPerL);
  const acidUsed = acid === 'other' ? null : clock(acidG, volumeL * strengthGPerL * usableAcidFraction);
  return {
    dips,
    copper,
    copperGPerL: tidy(copper.usedG / volumeL),
    acidUsed,
    fraction: Math.max(copper.fraction, acidUsed?.fraction ?? 0),
  };
}

function clock(usedG: number, limitG: number) {
  return { usedG: tidy(usedG), limitG: tidy(limitG), fraction: tidy(usedG / limitG) };
}

function tidy(value: number): number {
  return Number(value.toPrecision(6));
}
