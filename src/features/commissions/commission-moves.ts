import type { Db } from '../../platform/db/client.ts';
import { holdToOwner, writtenBy, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { currentDesign, livePiecesOf, solderNeeded } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import { freeHolds, holdMetal, holdSolder } from '../stock/index.ts';
import { whatIsMissing, type Asked } from './commission-guards.ts';
import * as store from './commissions.store.ts';

/** Writes a version of a quote and its acceptance at once, in the open transaction. */
export type AcceptNow = (
  tx: Db,
  by: WrittenBy,
  asked: { commission: store.CommissionRow; overrides: Record<string, unknown>; occurredAt: string },
) => void;

interface MoveAsked extends Asked {
  actor: Actor;
  now: Date;
  acceptNow: AcceptNow;
}

/** Moves a commission, if its life cycle, the person's roles and the guard of the move allow it, with all that follows. */
export function moveCommission(tx: Db, asked: MoveAsked): store.CommissionRow {
  const { actor, row: before, sent, now } = asked;
  const { guard } = holdToLifecycle('commission', actor, { state: before.state, sent, now });
  holdToFieldsOfMove(asked);
  holdToGuard(tx, guard, asked);
  const by = writtenBy(actor, now, sent.deviceId);
  const at = new Date(sent.occurredAt);
  if (guard === 'no-quote-needed' && before.kind === 'repair')
    asked.acceptNow(tx, by, { commission: before, overrides: sent.overrides ?? {}, occurredAt: sent.occurredAt });
  const after = store.updateCommission(tx, before.id, {
    state: sent.to,
    stateReason: sent.reason ?? null,
    stateSince: sent.occurredAt,
    waitingFor: sent.to === 'resting' ? (sent.waitingFor ?? null) : null,
    version: before.version + 1,
  });
  writeJournal(tx, by, { what: 'commission', id: before.id, before, after });
  if (sent.to === 'agreed') holdStock(tx, by, before.id, at);
  if (sent.to === 'called_off') freeStock(tx, by, before.id, at);
  return after;
}

function holdToFieldsOfMove({ row, sent, actor }: MoveAsked): void {
  if (sent.override) holdToOwner(actor, 'go past what is missing');
  const acceptsNow = row.kind === 'repair' && row.state === 'shaping' && sent.to === 'agreed';
  const errors = [
    ...(sent.waitingFor !== undefined && sent.to !== 'resting'
      ? [{ pointer: '/waitingFor', detail: 'This goes with the move to resting.', given: sent.waitingFor }]
      : []),
    ...(sent.overrides !== undefined && !acceptsNow
      ? [{ pointer: '/overrides', detail: 'This goes with accepting a repair at once, from shaping to agreed.' }]
      : []),
    ...(sent.override && sent.reason === undefined
      ? [{ pointer: '/reason', detail: 'Say why, to go past what is missing.' }]
      : []),
  ];
  if (errors.length > 0) throw invalidFields(errors);
}

function holdToGuard(tx: Db, guard: string | undefined, asked: MoveAsked): void {
  const { row, sent } = asked;
  const missing = whatIsMissing(tx, guard, asked).filter(({ overridable }) => !(overridable && sent.override));
  if (missing.length === 0) return;
  const says = missing.map((one) => one.says);
  throw new Problem('condition-not-met', `Cannot move ${row.number} to ${sent.to.replaceAll('_', ' ')}: ${says.join('; ')}`, {
    missing: says,
    ownerMayOverride: missing.every(({ overridable }) => overridable === true),
  });
}

/** Stock is held here and nowhere else: what plans and designs need, times the studio's factor. */
function holdStock(tx: Db, by: WrittenBy, commissionId: string, at: Date): void {
  const { holdFactor } = getSettings(tx);
  const pieces = livePiecesOf(tx, commissionId);
  const designed = pieces.flatMap(({ id }) => {
    const design = currentDesign(tx, id)?.body;
    return design ? [{ id, design }] : [];
  });
  holdMetal(tx, by, { commissionId, pieces: designed, at });
  for (const piece of pieces) {
    for (const { productId, tenthMg } of solderNeeded(tx, piece.id))
      if (tenthMg > 0) holdSolder(tx, by, { pieceId: piece.id, productId, tenthMg: Math.round(tenthMg * holdFactor), at });
  }
}

function freeStock(tx: Db, by: WrittenBy, commissionId: string, at: Date): void {
  for (const piece of store.piecesIn(tx, commissionId)) freeHolds(tx, by, { pieceId: piece.id, at });
}
