import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type WrittenBy } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import { freeHolds, issuedToPiece, toTenthMg } from '../stock/index.ts';
import { skipHeatsLeft } from './heat-state.ts';
import { jointsOf, putJoint } from './joints.store.ts';
import { holdToFieldsOfMove, holdToMissing } from './move-fields.ts';
import { missingForPieceMove, weightErrors, type PieceMoveAsked } from './piece-guards.ts';
import { writePiece } from './piece-state.ts';
import * as store from './pieces.store.ts';

const EXTRAS = ['metalIssuedG', 'metalReturnedG', 'remake', 'weighedG', 'photoTaken', 'labelled', 'lookedOver', 'sentTo'];
const TAKEN: Readonly<Record<string, readonly string[]>> = {
  'metal-issued': ['metalIssuedG'],
  'sent-out': ['sentTo'],
  'back-and-weighed': ['weighedG', 'lookedOver'],
  'look-over-done': ['lookedOver'],
  'weight-photo-label': ['weighedG', 'photoTaken', 'labelled'],
  'metal-in-scrap': ['metalReturnedG', 'remake'],
  'metal-in-scrap-or-called-off': ['metalReturnedG'],
};

/** Moves a piece, if its life cycle, the person's roles and the guard of the move allow it, with all that follows. */
export function movePiece(tx: Db, asked: PieceMoveAsked, now: Date): store.PieceRow {
  const { actor, row: before, sent } = asked;
  const { guard = '' } = holdToLifecycle('piece', actor, { state: before.state, sent, now });
  holdToFieldsOfMove(sent, EXTRAS, TAKEN[guard] ?? []);
  holdToMissing(before.number, sent.to, missingForPieceMove(tx, guard, asked));
  holdFields(weightErrors(tx, asked), actor.confirmed);
  const by = writtenBy(actor, now, sent.deviceId);
  const after = writePiece(tx, by, before, { state: sent.to, ...changeWith(asked), ...issuedFromLots(tx, asked, guard) });
  if (sent.to === 'built' || sent.to === 'scrapped') freeHolds(tx, by, { pieceId: before.id, at: new Date(sent.occurredAt) });
  if (sent.to === 'scrapped' || guard === 'no-heat-needed') skipHeatsLeft(tx, by, before.id);
  if (sent.remake) remake(tx, by, before);
  return after;
}

function changeWith({ actor, row, sent }: PieceMoveAsked): Partial<store.PieceRow> {
  const { metalIssuedG, metalReturnedG, weighedG } = sent;
  const change: Partial<store.PieceRow> = {
    stateReason: sent.sentTo ?? sent.reason ?? null,
    stateBeforeAside: sent.to === 'set_aside' ? row.state : null,
  };
  if (metalIssuedG !== undefined) change.metalIssuedTenthMg = toTenthMg(metalIssuedG);
  if (metalReturnedG !== undefined) change.metalReturnedTenthMg = toTenthMg(metalReturnedG);
  if (weighedG !== undefined) change.weighedTenthMg = toTenthMg(weighedG);
  if (sent.to === 'built' && row.state !== 'set_aside') change.builtBy = actor.personId;
  if (sent.to === 'away') change.whereabouts = 'away';
  if (row.state === 'away') change.whereabouts = 'bench';
  if (sent.to === 'given') change.whereabouts = 'with_client';
  return change;
}

/** Without a weight of its own the piece was cut from what the ledger of metal has issued to it. */
function issuedFromLots(tx: Db, { row, sent }: PieceMoveAsked, guard: string): Partial<store.PieceRow> {
  if (guard !== 'metal-issued' || sent.metalIssuedG !== undefined) return {};
  const { issuedTenthMg, putBackTenthMg } = issuedToPiece(tx, row.id);
  return issuedTenthMg > 0 ? { metalIssuedTenthMg: issuedTenthMg - putBackTenthMg } : {};
}

/** Lays out the piece that is made in place of a scrapped one: same design, nothing made yet. */
function remake(tx: Db, by: WrittenBy, scrapped: store.PieceRow): void {
  const commission = store.findCommission(tx, scrapped.commissionId)!;
  const serial = store.highestSerial(tx, commission.id) + 1;
  const at = by.at.toISOString();
  const piece = store.insertPiece(tx, {
    id: newId(by.at),
    number: `${commission.number}.${serial}`,
    commissionId: commission.id,
    serial,
    title: scrapped.title,
    metal: scrapped.metal,
    state: 'drawn',
    whereabouts: 'bench',
    remakeOfPieceId: scrapped.id,
    createdAt: at,
  });
  writeJournal(tx, by, { what: 'piece', id: piece.id, after: piece });
  const design = store.findCurrentDesign(tx, scrapped.id);
  if (!design) return;
  const copy = store.insertDesign(tx, { ...design, id: newId(by.at), pieceId: piece.id, number: 1, createdAt: at });
  writeJournal(tx, by, { what: 'design', id: copy.id, after: copy });
  for (const { jointId } of jointsOf(tx, scrapped.id)) putJoint(tx, { pieceId: piece.id, jointId, state: 'open' });
}
