import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { MovementKind } from '../../platform/db/json-columns.ts';
import { holdToOwner, writtenBy, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { aheadErrors } from '../../platform/http/not-yet.ts';
import { notFound, Problem } from '../../platform/http/problem.ts';
import { pageOf } from '../../platform/http/paging.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { closedErrors } from './closed-books.ts';
import { countBack, countedAfter, seenByScale } from './counted-since.ts';
import { inGrams, toG, toTenthMg } from './grams.ts';
import { holdEnough, openAtFirstUse } from './heat-solder.ts';
import { heldShare } from './holds.ts';
import { moreThanCameIn } from './more-than-came-in.ts';
import { lineCosts } from './product-cost.ts';
import { findLot, getLot, type LotRow } from './solder-lots.store.ts';
import { seesPrices } from './stock-fields.ts';
import type { MovementQuery, NewMovement } from './stock-movements.schema.ts';
import * as store from './stock-movements.store.ts';

export type StockMovementService = ReturnType<typeof createStockMovementService>;

const OUT: ReadonlySet<MovementKind> = new Set(['use', 'scrap', 'count_down', 'write_off']);
const COUNTS: ReadonlySet<MovementKind> = new Set(['count_up', 'count_down']);

export function createStockMovementService({ db, clock }: Platform) {
  return {
    /** Books by hand what was used, put back, scrapped, counted or written off. */
    add(actor: Actor, { kind, lotId, quantityG, reason, pieceId, occurredAt }: z.infer<typeof NewMovement>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        if (kind === 'write_off') holdToOwner(actor, 'write stock off');
        const { timeZone } = getSettings(tx);
        const at = occurredAt === undefined ? by.at : new Date(occurredAt);
        const lot = findLot(tx, lotId);
        const tenthMg = toTenthMg(quantityG);
        const out = OUT.has(kind);
        holdFields(
          [
            ...(lot ? [] : [{ pointer: '/lotId', detail: 'There is no such solder lot.', given: lotId }]),
            ...(pieceId === undefined || store.pieceExists(tx, pieceId)
              ? []
              : [{ pointer: '/pieceId', detail: 'There is no such piece.', given: pieceId }]),
            ...aheadErrors('/occurredAt', at.toISOString(), by.at),
            ...closedErrors(tx, '/occurredAt', { at, now: by.at }),
            ...(lot && dateInZone(at, timeZone) < lot.receivedOn
              ? [
                  {
                    pointer: '/occurredAt',
                    detail: `Lot ${lot.number} came in on ${lot.receivedOn}, after that.`,
                    given: occurredAt,
                  },
                ]
              : []),
            ...(lot && !out ? moreThanCameIn('/quantityG', lot, store.onHandOf(tx, lotId) + tenthMg) : []),
          ],
          actor.confirmed,
        );
        const held = getLot(tx, lotId);
        holdOpenToStock(held);
        // What is booked late, of a time before the lot was counted, is in the count.
        const wasSeen = !COUNTS.has(kind) && seenByScale(tx, lotId, { at, now: by.at });
        if (out && !wasSeen) holdEnough(tx, held, { tenthMg, today: dateInZone(at, timeZone) });
        if (kind === 'use') {
          holdMayBeHeated(held, pieceId);
          openAtFirstUse(tx, by, held);
        }
        const { productId } = held;
        const movement = store.addMovement(tx, by, {
          kind,
          productId,
          lotId,
          pieceId: pieceId ?? null,
          onHandTenthMg: out ? -tenthMg : tenthMg,
          heldTenthMg: kind === 'use' && pieceId !== undefined ? -heldShare(tx, { pieceId, productId, tenthMg }) : 0,
          reason,
          at,
        });
        if (wasSeen) countBack(tx, by, { movement, usedAt: at });
        return showMovement(tx, movement);
      });
    },

    /** Takes a wrong movement back by its opposite, once. */
    reverse(actor: Actor, id: string, reason: string) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const wrong = store.findMovement(tx, id);
        if (!wrong) throw notFound('stock movement', id);
        if (OWNERS_TO_REVERSE.has(wrong.kind)) holdToOwner(actor, `reverse a ${wrong.kind.replaceAll('_', ' ')}`);
        holdReversible(tx, wrong, dateInZone(by.at, getSettings(tx).timeZone));
        const reversal = store.addMovement(tx, by, {
          kind: 'reverse',
          productId: wrong.productId,
          lotId: wrong.lotId,
          pieceId: wrong.pieceId,
          heatId: wrong.heatId,
          // Adding 0 turns a negative zero into zero.
          onHandTenthMg: -wrong.onHandTenthMg + 0,
          heldTenthMg: -wrong.heldTenthMg + 0,
          reversesId: id,
          reason,
        });
        letGoAgain(tx, by, { wrong, reversal });
        return showMovement(tx, reversal);
      });
    },

    list(actor: Actor, query: z.infer<typeof MovementQuery>) {
      const rows = store.listMovements(db, query);
      const costs = seesPrices(actor) ? lineCosts(db, 'solder') : undefined;
      return pageOf(rows, query, (row) => {
        const cost = costs?.costOf(row.id);
        return { ...showMovement(db, row), ...(cost === undefined ? {} : { cost }) };
      });
    },
  };
}

const OWNERS_TO_REVERSE: ReadonlySet<MovementKind> = new Set(['receive', 'write_off', 'hold', 'free']);

export function showMovement(db: Db, { at, onHandTenthMg, heldTenthMg, ...row }: store.MovementRow) {
  return {
    ...row,
    onHandG: toG(onHandTenthMg),
    heldG: toG(heldTenthMg),
    occurredAt: at,
    reversedById: store.findReversalOf(db, row.id)?.id ?? null,
  };
}

export function holdOpenToStock({ number, state }: LotRow): void {
  if (state !== 'finished' && state !== 'written_off') return;
  throw new Problem('condition-not-met', `Cannot change what lot ${number} holds: it is ${state.replaceAll('_', ' ')}`, {
    state,
  });
}

/** What a use had taken out of a hold does not come back to a piece whose hold was let go since. */
function letGoAgain(
  tx: Db,
  by: WrittenBy,
  { wrong: { id, kind, pieceId, productId }, reversal }: { wrong: store.MovementRow; reversal: store.MovementRow },
): void {
  const { heldTenthMg } = reversal;
  if (pieceId === null || kind === 'free' || heldTenthMg <= 0 || !store.freedAfter(tx, { id, pieceId, productId })) return;
  store.addMovement(tx, by, { kind: 'free', productId, pieceId, onHandTenthMg: 0, heldTenthMg: -heldTenthMg });
}

function holdMayBeHeated({ id, number, cadmiumStanding, state, stateReason }: LotRow, pieceId: string | undefined): void {
  if (state === 'held_back' && pieceId !== undefined)
    throw new Problem(
      'condition-not-met',
      `Cannot use lot ${number} for a piece: it is held back (${stateReason ?? 'in doubt'}). Try it on scrap, and open it when the doubt is cleared`,
      { state },
    );
  if (cadmiumStanding === 'no') return;
  throw new Problem(
    'cadmium-blocks',
    `Cannot use lot ${number}: cadmium ${cadmiumStanding === 'yes' ? 'is in it' : 'is unknown, and counts as yes'}`,
    { lotId: id, cadmiumStanding },
  );
}

function holdReversible(tx: Db, wrong: store.MovementRow, today: string): void {
  if (wrong.kind === 'reverse') cannotReverse('it is itself a reversal; book what is right instead');
  const done = store.findReversalOf(tx, wrong.id);
  if (done) cannotReverse('it was reversed already', { reversedById: done.id });
  if (wrong.lotId !== null) {
    const lot = getLot(tx, wrong.lotId);
    holdOpenToStock(lot);
    if (wrong.onHandTenthMg !== 0 && countedAfter(tx, { ...wrong, lotId: lot.id }))
      cannotReverse(
        `lot ${lot.number} was counted after it, so it holds what the scale said. If it was of another piece, put it back and use it again; if the count was wrong, reverse the count first`,
      );
    if (wrong.onHandTenthMg > 0) holdEnough(tx, lot, { tenthMg: wrong.onHandTenthMg, today });
  }
  if (wrong.pieceId !== null && wrong.heldTenthMg > 0) {
    const held = store.heldForPiece(tx, wrong.pieceId).find(({ productId }) => productId === wrong.productId)?.tenthMg ?? 0;
    if (held < wrong.heldTenthMg)
      cannotReverse(`of the ${inGrams(wrong.heldTenthMg)} it held, only ${inGrams(held)} are still held`);
  }
}

function cannotReverse(why: string, extensions: Record<string, unknown> = {}): never {
  throw new Problem('condition-not-met', `Cannot reverse this movement: ${why}`, extensions);
}
