import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { holdToOwner, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { aheadErrors } from '../../platform/http/not-yet.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { invalidFields, notFound, Problem, type FieldError } from '../../platform/http/problem.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { closedErrors } from './closed-books.ts';
import { metalCountedAfter } from './counted-since.ts';
import { inGrams, SCALE_ERROR_TENTH_MG, toG } from './grams.ts';
import type { MetalMovementQuery, NewMetalMovement } from './metal-lots.schema.ts';
import { giveBackToMetalHold, takeFromMetalHold } from './metal-holds.ts';
import { quantityOf } from './metal-lots.service.ts';
import { showMetalMovement } from './metal-movement-reply.ts';
import * as store from './metal-lots.store.ts';
import { getMetalProduct } from './metal-products.store.ts';

export type MetalMovementService = ReturnType<typeof createMetalMovementService>;

type New = z.infer<typeof NewMetalMovement>;

const OUT: ReadonlySet<string> = new Set(['issue', 'scrap', 'count_down', 'write_off']);
const OVER: ReadonlySet<string> = new Set(['given', 'scrapped']);
const OF_A_PIECE: ReadonlySet<string> = new Set(['issue', 'put_back']);

export function createMetalMovementService({ db, clock }: Platform) {
  return {
    /** Books metal to a piece and back, into the jar of offcuts, or by the scale. */
    add(actor: Actor, sent: New) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const { kind, lotId, pieceId, reason } = sent;
        if (kind === 'write_off') holdToOwner(actor, 'write metal off');
        const at = sent.occurredAt === undefined ? by.at : new Date(sent.occurredAt);
        const lot = store.findMetalLot(tx, lotId);
        if (!lot) throw invalidFields([{ pointer: '/lotId', detail: 'There is no such metal lot.', given: lotId }]);
        const product = getMetalProduct(tx, lot.productId);
        const tenthMg = quantityOf(product, sent);
        holdFields(
          [
            ...pieceErrors(tx, lot, sent),
            ...timeErrors(tx, lot, { at, now: by.at, given: sent.occurredAt }),
            ...reasonErrors(sent),
          ],
          actor.confirmed,
        );
        if (OUT.has(kind)) holdMetalEnough(tx, lot, tenthMg);
        if (kind === 'put_back') holdIssued(tx, pieceId!, { lot, tenthMg });
        const movement = store.addMetalMovement(tx, by, {
          kind,
          lotId,
          pieceId: pieceId ?? null,
          onHandTenthMg: OUT.has(kind) ? -tenthMg : tenthMg,
          reason: reason ?? null,
          at,
        });
        if (kind === 'issue') takeFromMetalHold(tx, by, { movement, product });
        return showMetalMovement(tx, movement);
      });
    },

    /** Takes a wrong movement back by its opposite, once. */
    reverse(actor: Actor, id: string, reason: string) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const wrong = store.findMetalMovement(tx, id);
        if (!wrong) throw notFound('metal movement', id);
        if (wrong.kind === 'receive' || wrong.kind === 'write_off')
          holdToOwner(actor, `reverse a ${wrong.kind.replaceAll('_', ' ')}`);
        const done = store.findMetalReversalOf(tx, id);
        if (wrong.kind === 'reverse' || done) {
          throw new Problem(
            'condition-not-met',
            done
              ? 'Cannot reverse this movement: it was reversed already'
              : 'Cannot reverse a reversal: book what is right instead',
            done ? { reversedById: done.id } : {},
          );
        }
        if (metalCountedAfter(tx, wrong))
          throw new Problem(
            'condition-not-met',
            'Cannot reverse this movement: the lot was counted after it, so it holds what the scale said; reverse the count first, or book what is right',
          );
        if (wrong.onHandTenthMg > 0) holdMetalEnough(tx, store.getMetalLot(tx, wrong.lotId), wrong.onHandTenthMg);
        if (wrong.kind === 'issue') holdIssuedStays(tx, wrong);
        const reversal = store.addMetalMovement(tx, by, {
          kind: 'reverse',
          lotId: wrong.lotId,
          pieceId: wrong.pieceId,
          onHandTenthMg: -wrong.onHandTenthMg,
          reversesId: id,
          reason,
        });
        giveBackToMetalHold(tx, by, { issueId: id, movementId: reversal.id });
        return showMetalMovement(tx, reversal);
      });
    },

    list: (query: z.infer<typeof MetalMovementQuery>) =>
      pageOf(store.listMetalMovements(db, query), query, (row) => showMetalMovement(db, row)),
  };
}

/** @throws {Problem} condition-not-met when the lot holds less, by more than a scale may err */
export function holdMetalEnough(db: Db, { id, number }: store.MetalLotRow, tenthMg: number): void {
  const onHand = store.metalOnHandOf(db, id);
  if (onHand - tenthMg >= -SCALE_ERROR_TENTH_MG) return;
  throw new Problem(
    'condition-not-met',
    `Cannot take ${inGrams(tenthMg)} from metal lot ${number}: it holds ${inGrams(onHand)}. Weigh it or take another`,
    { lotId: id, onHandG: toG(onHand) },
  );
}

/** Metal goes back to those it came from: what a client left never becomes ours, nor ours theirs. */
function holdIssued(db: Db, pieceId: string, { lot, tenthMg }: { lot: store.MetalLotRow; tenthMg: number }): void {
  const { issuedTenthMg, putBackTenthMg } = store.issuedLike(db, pieceId, lot);
  const out = issuedTenthMg - putBackTenthMg;
  if (out > 0 && tenthMg <= out + SCALE_ERROR_TENTH_MG) return;
  const whose = lot.commissionId === null ? 'of ours' : 'of the client’s';
  throw new Problem(
    'condition-not-met',
    `Cannot put ${inGrams(tenthMg)} back into lot ${lot.number}: of such metal ${whose} that was issued to the piece, ${inGrams(out)} are still out`,
  );
}

function holdIssuedStays(db: Db, { pieceId, lotId, onHandTenthMg }: store.MetalMovementRow): void {
  const { issuedTenthMg, putBackTenthMg } = store.issuedLike(db, pieceId!, store.getMetalLot(db, lotId));
  if (issuedTenthMg + onHandTenthMg >= putBackTenthMg - SCALE_ERROR_TENTH_MG) return;
  throw new Problem('condition-not-met', 'Cannot reverse this issue: some of it was put back; reverse that first');
}

function pieceErrors(db: Db, lot: store.MetalLotRow, { kind, pieceId }: New): FieldError[] {
  const pointer = '/pieceId';
  if (!OF_A_PIECE.has(kind))
    return pieceId === undefined
      ? []
      : [{ pointer, detail: `A ${kind.replaceAll('_', ' ')} is of the lot alone.`, given: pieceId }];
  const piece = pieceId === undefined ? undefined : store.pieceNamed(db, pieceId);
  if (!piece)
    return [{ pointer, detail: pieceId === undefined ? 'Say which piece.' : 'There is no such piece.', given: pieceId }];
  const product = getMetalProduct(db, lot.productId);
  return [
    ...(kind === 'issue' && OVER.has(piece.state)
      ? [{ pointer, detail: `${piece.number} is ${piece.state}: no metal goes to it any more.`, given: pieceId }]
      : []),
    ...(lot.commissionId !== null && lot.commissionId !== piece.commissionId
      ? [
          {
            pointer,
            detail: `Lot ${lot.number} was left for ${store.commissionNumber(db, lot.commissionId)}; ${piece.number} is not of it.`,
            given: pieceId,
          },
        ]
      : []),
    ...(product.metal === piece.metal
      ? []
      : [
          {
            pointer,
            detail: `${piece.number} is of ${piece.metal}, lot ${lot.number} is ${product.metal}.`,
            given: pieceId,
            confirmable: true,
          },
        ]),
  ];
}

function timeErrors(
  db: Db,
  lot: store.MetalLotRow,
  { at, now, given }: { at: Date; now: Date; given: string | undefined },
): FieldError[] {
  const pointer = '/occurredAt';
  return [
    ...aheadErrors(pointer, at.toISOString(), now),
    ...closedErrors(db, pointer, { at, now }),
    ...(dateInZone(at, getSettings(db).timeZone) < lot.receivedOn
      ? [{ pointer, detail: `Lot ${lot.number} came in on ${lot.receivedOn}, after that.`, given }]
      : []),
  ];
}

function reasonErrors({ kind, reason }: New): FieldError[] {
  return OF_A_PIECE.has(kind) || reason !== undefined ? [] : [{ pointer: '/reason', detail: 'Say why.' }];
}
