import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { worksHere, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { invalidFields, Problem, type FieldError } from '../../platform/http/problem.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { refusalOfMetal } from '../metals/index.ts';
import { startAsItLeft } from './came-back.ts';
import { openIncident } from './open-incident.ts';
import { movePiece } from './piece-moves.ts';
import { getPiece } from './piece-reads.ts';
import { showPiece, summarisePiece } from './piece-reply.ts';
import { writePiece } from './piece-state.ts';
import type { NewPiece, PieceChange, PieceMove, PieceQuery } from './pieces.schema.ts';
import * as store from './pieces.store.ts';

export type PieceService = ReturnType<typeof createPieceService>;

const CLOSED = new Set(['turned_down', 'called_off', 'handed_over', 'settled']);

export function createPieceService({ db, clock }: Platform) {
  return {
    add(actor: Actor, piece: z.infer<typeof NewPiece>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        holdKnown(tx, piece);
        const commission = getCommissionFor(tx, piece.commissionId);
        const serial = piece.serial ?? store.highestSerial(tx, commission.id) + 1;
        holdSerialFree(tx, commission, serial);
        const row = store.insertPiece(tx, {
          id: newId(by.at),
          number: `${commission.number}.${serial}`,
          commissionId: commission.id,
          serial,
          title: piece.title,
          metal: piece.metal,
          state: 'drawn',
          whereabouts: 'bench',
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'piece', id: row.id, after: row });
        const earlierId = commission.pointsToPieceId;
        if (earlierId !== null && store.piecesOf(tx, commission.id).length === 1) startAsItLeft(tx, by, row, earlierId);
        return showPiece(tx, actor, row);
      });
    },

    get: (actor: Actor, id: string) => showPiece(db, actor, getPiece(db, id)),

    list: (actor: Actor, query: z.infer<typeof PieceQuery>) =>
      pageOf(store.listPieces(db, { ...query, practiceOnly: !worksHere(actor) }), query, (row) => summarisePiece(actor, row)),

    change(actor: Actor, id: string, seen: number, change: z.infer<typeof PieceChange>) {
      return db.transaction((tx) => {
        const before = getPiece(tx, id);
        holdToVersion('piece', before.version, seen);
        const by = writtenBy(actor, clock.now());
        const given = membersSent(change);
        let row = writePiece(tx, by, before, given);
        if (change.whereabouts === 'unknown' && before.whereabouts !== 'unknown') {
          openIncident(tx, by, {
            piece: row,
            kind: 'lost',
            note: 'Nobody knows where the piece is',
            seenAt: by.at.toISOString(),
          });
          row = getPiece(tx, id);
        }
        return showPiece(tx, actor, row);
      });
    },

    move(actor: Actor, id: string, sent: z.infer<typeof PieceMove>) {
      return db.transaction((tx) => showPiece(tx, actor, movePiece(tx, { actor, row: getPiece(tx, id), sent }, clock.now())));
    },
  };
}

/** What a new piece names has to be there. */
function holdKnown(tx: Db, { commissionId, metal }: z.infer<typeof NewPiece>): void {
  const refusal = refusalOfMetal(tx, metal);
  const errors: FieldError[] = [
    ...(store.findCommission(tx, commissionId)
      ? []
      : [{ pointer: '/commissionId', detail: 'There is no commission with this id.', given: commissionId }]),
    ...(refusal === undefined
      ? []
      : [{ pointer: '/metal', detail: `Choose the metal the piece is mainly made of. ${refusal}`, given: metal }]),
  ];
  if (errors.length > 0) throw invalidFields(errors);
}

function getCommissionFor(tx: Db, id: string) {
  const commission = store.findCommission(tx, id)!;
  if (CLOSED.has(commission.state)) {
    throw new Problem(
      'condition-not-met',
      `Cannot add a piece to ${commission.number}: it is ${commission.state.replaceAll('_', ' ')}`,
    );
  }
  return commission;
}

/** Scrapped pieces keep their number and do not count toward the quantity. */
function holdSerialFree(tx: Db, { id, quantity }: { id: string; quantity: number }, serial: number): void {
  const pieces = store.piecesOf(tx, id);
  const most = quantity + pieces.filter(({ state }) => state === 'scrapped').length;
  if (serial > most) {
    throw invalidFields([{ pointer: '/serial', detail: `Piece ${serial} of ${most}: raise the quantity first.`, given: serial }]);
  }
  const there = pieces.find((piece) => piece.serial === serial);
  if (there) throw new Problem('already-used', `Cannot add piece ${there.number}: it is there already`);
}
