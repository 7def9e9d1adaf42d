import { groupBy } from '../../../shared/group-by.ts';
import { addDays, dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { startOfDay } from '../../platform/wall-time.ts';
import { getSettings } from '../settings/index.ts';
import { toG } from './grams.ts';
import { heldMetal } from './metal-holds.store.ts';
import { allMetalMovements, metalLotsOldestFirst } from './metal-lots.store.ts';
import { firstReceived } from './solder-lots.store.ts';
import { firstMoment, mostOnePiece, usesStanding } from './stock-movements.store.ts';
import { usesOf, weeklyUse, type LedgerLine } from './weekly-use.ts';

const HISTORY_WEEKS = 52;

export interface ProductUse {
  /** Grams of each week, oldest first. */
  weeklyUseG: number[];
  /** What the biggest piece took. */
  largestPieceG: number;
}

/** How a solder product was used. */
export function productUse(db: Db, productId: string, today: string): ProductUse {
  const { timeZone } = getSettings(db);
  const dayOf = (at: string) => dateInZone(new Date(at), timeZone);
  const since = startOfDay(addDays(today, -7 * HISTORY_WEEKS), timeZone).toISOString();
  const uses = usesStanding(db, { since, before: null, productId }).map(({ at, onHandTenthMg }) => ({
    day: dayOf(at),
    tenthMg: -onHandTenthMg,
  }));
  const first = firstMoment(db, productId);
  return {
    weeklyUseG: weeksOf(uses, [firstReceived(db, productId), first && dayOf(first)], today),
    largestPieceG: toG(mostOnePiece(db, productId)),
  };
}

/** How a metal product that is ours was used. */
export function metalUse(db: Db, productId: string, today: string): ProductUse {
  const lots = metalLotsOldestFirst(db).filter(({ lot }) => lot.productId === productId && lot.commissionId === null);
  const ours = new Set(lots.map(({ lot }) => lot.id));
  return useOf(db, {
    lines: allMetalMovements(db).filter(({ lotId }) => ours.has(lotId)),
    held: heldMetal(db).filter((one) => one.productId === productId),
    received: lots.map(({ lot }) => lot.receivedOn),
    today,
  });
}

function useOf(
  db: Db,
  {
    lines,
    held,
    received,
    today,
  }: { lines: readonly LedgerLine[]; held: readonly { pieceId: string; tenthMg: number }[]; received: string[]; today: string },
): ProductUse {
  const { timeZone } = getSettings(db);
  const dayOf = ({ at }: LedgerLine) => dateInZone(new Date(at), timeZone);
  const uses = usesOf(lines).map((line) => ({ day: dayOf(line), tenthMg: -line.onHandTenthMg }));
  return {
    weeklyUseG: weeksOf(uses, [...received, ...lines.map(dayOf)], today),
    largestPieceG: toG(largestPiece(lines, held)),
  };
}

/** Stock begins with its first delivery; a use that was booked for an earlier day begins it too. */
function weeksOf(uses: Parameters<typeof weeklyUse>[0], begun: readonly (string | undefined)[], today: string): number[] {
  const since = begun.filter((day) => day !== undefined).toSorted()[0];
  return since === undefined ? [] : weeklyUse(uses, { since, today, atMost: HISTORY_WEEKS }).map(toG);
}

/** The most that one piece has taken and still holds, together: what must not run out in its middle. */
function largestPiece(lines: readonly LedgerLine[], held: readonly { pieceId: string; tenthMg: number }[]): number {
  const taken = usesOf(lines).flatMap(({ pieceId, onHandTenthMg }) =>
    pieceId === null ? [] : [{ pieceId, tenthMg: -onHandTenthMg }],
  );
  const byPiece = groupBy([...taken, ...held], ({ pieceId }) => pieceId);
  return Math.max(0, ...[...byPiece.values()].map((own) => own.reduce((total, { tenthMg }) => total + tenthMg, 0)));
}
