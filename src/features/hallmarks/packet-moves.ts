import type { z } from 'zod';
import type { GuardOf } from '../../../shared/lifecycles/lifecycles.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { holdToOwner, writtenBy, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { getPiece, openIncident, sendPieceAway, takePieceBack } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import { toTenthMg } from '../stock/index.ts';
import type { PacketMove } from './hallmark-packets.schema.ts';
import * as store from './hallmark-packets.store.ts';
import { finenessOf } from './packet-reply.ts';

type Sent = z.infer<typeof PacketMove>;

interface Asked {
  actor: Actor;
  row: store.PacketRow;
  sent: Sent;
  now: Date;
}

/** Moves a packet, if its life cycle, the person's roles and the guard of the move allow it; its pieces go along. */
export function movePacket(tx: Db, asked: Asked): store.PacketRow {
  const { actor, row: before, sent, now } = asked;
  const { guard } = holdToLifecycle('hallmark_packet', actor, { state: before.state, sent, now });
  holdToFieldsOfMove(asked);
  const packed = store.packedIn(tx, before.id);
  holdToGuard(tx, guard as GuardOf<'hallmark_packet'> | undefined, asked, packed);
  const by = writtenBy(actor, now, sent.deviceId);
  const day = dateInZone(new Date(sent.occurredAt), getSettings(tx).timeZone);
  const after = store.updatePacket(tx, before.id, {
    state: sent.to,
    stateReason: sent.reason ?? null,
    ...(sent.to === 'sent' ? { sentOn: day } : {}),
    ...(sent.to === 'back' ? { backOn: day } : {}),
    version: before.version + 1,
  });
  writeJournal(tx, by, { what: 'hallmark_packet', id: before.id, before, after });
  EFFECTS[sent.to]?.(tx, by, { ...asked, packed });
  return after;
}

type Effect = (tx: Db, by: WrittenBy, asked: Asked & { packed: store.PackedRow[] }) => void;

const EFFECTS: Readonly<Record<string, Effect>> = {
  sent: (tx, by, { row, packed }) => {
    for (const { pieceId } of packed) sendPieceAway(tx, by, getPiece(tx, pieceId), `${row.office}, packet ${row.number}`);
  },
  struck: (tx, _by, { packed }) => {
    for (const one of packed) store.updatePacked(tx, one, { outcome: 'struck' });
  },
  refused: (tx, by, { row, sent, packed }) => {
    const refused = new Set(sent.refusedPieceIds ?? packed.map(({ pieceId }) => pieceId));
    for (const one of packed) {
      const isRefused = refused.has(one.pieceId);
      store.updatePacked(tx, one, { outcome: isRefused ? 'refused' : 'struck' });
      if (isRefused) note(tx, by, one, { kind: 'mark_refused', seenAt: sent.occurredAt, note: `${row.office}: ${sent.reason}` });
    }
  },
  back: (tx, by, { sent, packed }) => {
    for (const one of packed) {
      const backTenthMg = toTenthMg(sent.back!.find(({ pieceId }) => pieceId === one.pieceId)!.weighedG);
      store.updatePacked(tx, one, { backTenthMg });
      takePieceBack(tx, by, getPiece(tx, one.pieceId), backTenthMg);
    }
  },
  lost: (tx, by, { row, sent, packed }) => {
    for (const one of packed) {
      store.updatePacked(tx, one, { outcome: 'lost' });
      note(tx, by, one, { kind: 'lost', seenAt: sent.occurredAt, note: `packet ${row.number}: ${sent.reason}` });
    }
  },
};

function note(
  tx: Db,
  by: WrittenBy,
  { pieceId }: store.PackedRow,
  seen: { kind: 'mark_refused' | 'lost'; seenAt: string; note: string },
): void {
  openIncident(tx, by, { piece: getPiece(tx, pieceId), ...seen });
}

const BELONGS = { override: 'sent', refusedPieceIds: 'refused', back: 'back', insurerTold: 'lost' } as const;

function holdToFieldsOfMove({ actor, sent }: Asked): void {
  if (sent.override) holdToOwner(actor, 'go past what the rules of the place say');
  const errors = Object.entries(BELONGS)
    .filter(([field, to]) => sent[field as keyof typeof BELONGS] !== undefined && sent.to !== to)
    .map(([field, to]) => ({ pointer: `/${field}`, detail: `This goes with the move to ${to}.` }));
  if (sent.override && sent.reason === undefined)
    errors.push({ pointer: '/reason', detail: 'Say why, to go past what the rules of the place say.' });
  if (errors.length > 0) throw invalidFields(errors);
}

function holdToGuard(
  tx: Db,
  guard: GuardOf<'hallmark_packet'> | undefined,
  { row, sent }: Asked,
  packed: store.PackedRow[],
): void {
  const numberOf = ({ pieceId }: { pieceId: string }) => getPiece(tx, pieceId).number;
  const missing: string[] = [];
  if (guard === 'weights-and-parts-listed') missing.push(...sendingLacks(tx, packed), ...rulesBroken(tx, row, sent, packed));
  if (guard === 'refusal-named') {
    if (sent.reason === undefined) missing.push('say what the office wrote, in "reason"');
    const inside = new Set(packed.map(({ pieceId }) => pieceId));
    if (sent.refusedPieceIds?.some((id) => !inside.has(id))) missing.push('name only pieces that are in the packet');
  }
  if (guard === 'counted-and-weighed') {
    const back = new Map((sent.back ?? []).map((one) => [one.pieceId, one]));
    missing.push(
      ...packed.filter(({ pieceId }) => !back.has(pieceId)).map((one) => `count and weigh ${numberOf(one)} ("back")`),
      ...(back.size > packed.length || [...back.keys()].some((id) => !packed.some(({ pieceId }) => pieceId === id))
        ? ['name only pieces that are in the packet']
        : []),
    );
  }
  if (guard === 'incident-insurer-told') {
    if (sent.insurerTold === undefined) missing.push('tell the insurer ("insurerTold")');
    if (sent.reason === undefined) missing.push('say what is known, in "reason"');
  }
  if (missing.length > 0)
    throw new Problem('condition-not-met', `Cannot move packet ${row.number} to ${sent.to}: ${missing.join('; ')}`, { missing });
}

function sendingLacks(tx: Db, packed: store.PackedRow[]): string[] {
  return packed.flatMap(({ pieceId, weighedTenthMg }) => {
    const { number, state } = getPiece(tx, pieceId);
    return [
      ...(weighedTenthMg === null ? [`weigh ${number}`] : []),
      ...(state === 'finishing' || state === 'away' ? [] : [`${number} is ${state.replaceAll('_', ' ')}, not being finished`]),
    ];
  });
}

/** What the rules of the place say against a piece; the owner may send it all the same, with a reason. */
function rulesBroken(tx: Db, { place }: store.PacketRow, sent: Sent, packed: store.PackedRow[]): string[] {
  if (sent.override) return [];
  return packed.flatMap(({ pieceId }) => {
    const piece = getPiece(tx, pieceId);
    const found = finenessOf(tx, piece, place);
    return found?.finding === 'outside' ? found.says.map((says) => `${piece.number}: ${says}`) : [];
  });
}
