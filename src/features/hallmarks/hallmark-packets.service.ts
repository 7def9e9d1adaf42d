import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId, nextNumber } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { findPiece } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import { toG, toTenthMg } from '../stock/index.ts';
import type { NewPacket, PacketChange, PacketMove, PacketReply } from './hallmark-packets.schema.ts';
import * as store from './hallmark-packets.store.ts';
import { movePacket } from './packet-moves.ts';
import { showPacket } from './packet-reply.ts';

export type HallmarkPacketService = ReturnType<typeof createHallmarkPacketService>;
type Given = z.infer<typeof NewPacket>;
type Reply = z.infer<typeof PacketReply>;

export function createHallmarkPacketService({ db, clock }: Platform) {
  const show = (tx: Db, actor: Actor, row: store.PacketRow) => showPacket(tx, actor, row, clock.now());
  return {
    add(actor: Actor, given: Given): Reply {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        holdFields(packetErrors(tx, given, null), actor.confirmed);
        const row = store.insertPacket(tx, {
          id: newId(by.at),
          number: `P${nextNumber(tx, 'hallmark_packet')}`,
          state: 'packing',
          ...columnsOf(given),
          createdAt: by.at.toISOString(),
        });
        store.replacePacked(tx, row.id, packedRows(row.id, given));
        writeJournal(tx, by, { what: 'hallmark_packet', id: row.id, after: { ...row, pieces: given.pieces } });
        return show(tx, actor, row);
      });
    },

    get: (actor: Actor, id: string): Reply => show(db, actor, store.getPacket(db, id)),

    list: (actor: Actor, query: Page & store.PacketFilter) =>
      pageOf(store.listPackets(db, query), query, (row) => show(db, actor, row)),

    change(actor: Actor, id: string, seen: number, change: z.infer<typeof PacketChange>): Reply {
      return db.transaction((tx) => {
        const before = store.getPacket(tx, id);
        holdToVersion('packet', before.version, seen);
        if (before.state !== 'packing')
          throw new Problem('condition-not-met', `Cannot change packet ${before.number}: it is ${before.state}`);
        const was = asGiven(before, store.packedIn(tx, id));
        const given: Given = { ...was, ...membersSent(change) };
        // Another piece more or less: the number of articles is asked again only if somebody counted them.
        if (change.pieces && change.articles === undefined && was.articles === was.pieces.length) given.articles = null;
        holdFields(packetErrors(tx, given, id), actor.confirmed);
        const after = store.updatePacket(tx, id, { ...columnsOf(given), version: before.version + 1 });
        store.replacePacked(tx, id, packedRows(id, given));
        writeJournal(tx, writtenBy(actor, clock.now()), {
          what: 'hallmark_packet',
          id,
          before: { ...before, pieces: was.pieces },
          after: { ...after, pieces: given.pieces },
        });
        return show(tx, actor, after);
      });
    },

    move(actor: Actor, id: string, sent: z.infer<typeof PacketMove>): Reply {
      return db.transaction((tx) =>
        show(tx, actor, movePacket(tx, { actor, row: store.getPacket(tx, id), sent, now: clock.now() })),
      );
    },
  };
}

function columnsOf({ place, office, fee, post, perArticle, articles, pieces }: Given) {
  return {
    place,
    office,
    currency: fee.currency,
    feeMinor: fee.amountMinor,
    postMinor: post.amountMinor,
    perArticleMinor: perArticle?.amountMinor ?? 0,
    articles: articles ?? pieces.length,
  };
}

function packedRows(packetId: string, { pieces }: Given) {
  return pieces.map(({ pieceId, parts, marks, partMarks, weighedG }) => ({
    packetId,
    pieceId,
    parts,
    marks,
    partMarksMinor: partMarks?.amountMinor ?? 0,
    weighedTenthMg: weighedG === null ? null : toTenthMg(weighedG),
  }));
}

/** A packet as a request would write it. */
function asGiven(row: store.PacketRow, packed: store.PackedRow[]): Given {
  const money = (amountMinor: number) => ({ amountMinor, currency: row.currency });
  return {
    place: row.place,
    office: row.office,
    fee: money(row.feeMinor),
    post: money(row.postMinor),
    perArticle: money(row.perArticleMinor),
    articles: row.articles,
    pieces: packed.map(({ pieceId, parts, marks, partMarksMinor, weighedTenthMg }) => ({
      pieceId,
      parts,
      marks,
      partMarks: money(partMarksMinor),
      weighedG: weighedTenthMg === null ? null : toG(weighedTenthMg),
    })),
  };
}

function packetErrors(tx: Db, given: Given, id: string | null): FieldError[] {
  const { currency } = getSettings(tx);
  const amounts = [
    ['/fee', given.fee],
    ['/post', given.post],
    ['/perArticle', given.perArticle],
    ...given.pieces.map(({ partMarks }, index) => [`/pieces/${index}/partMarks`, partMarks] as const),
  ] as const;
  const seen = new Set<string>();
  return [
    ...amounts.flatMap(([pointer, amount]) =>
      amount === null || amount.currency === currency
        ? []
        : [{ pointer: `${pointer}/currency`, detail: `The studio counts in ${currency}.`, given: amount.currency }],
    ),
    ...(given.articles !== null && given.articles < given.pieces.length
      ? [{ pointer: '/articles', detail: `There are ${given.pieces.length} pieces in it.`, given: given.articles }]
      : []),
    ...given.pieces.flatMap(({ pieceId }, index): FieldError[] => {
      const error = (detail: string) => [{ pointer: `/pieces/${index}/pieceId`, detail, given: pieceId }];
      if (seen.has(pieceId)) return error('This piece is in it already.');
      seen.add(pieceId);
      const piece = findPiece(tx, pieceId);
      if (!piece) return error('There is no such piece.');
      const other = store.openPacketOf(tx, pieceId);
      return other && other.id !== id ? error(`${piece.number} is in packet ${other.number}, which is ${other.state}.`) : [];
    }),
  ];
}
