import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { money } from '../../platform/http/money.ts';
import { allowedMoves, holdToLifecycle } from '../../platform/http/moves.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { Problem } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { accountOf, getCommission } from '../commissions/index.ts';
import { getPiece, livePiecesOf } from '../pieces/index.ts';
import { pricePieces, profitBothWays } from './price.ts';
import { acceptQuote, metalShareOf, replaceQuote, sendQuote, writeMove } from './quote-moves.ts';
import type { EstimateAsked, EstimateFromBook, NewQuote, QuoteChange, QuoteMove, QuoteReply } from './quotes.schema.ts';
import * as store from './quotes.store.ts';
import { changeSketch, writeSketch } from './sketches.ts';

export type QuoteService = ReturnType<typeof createQuoteService>;
type Reply = z.infer<typeof QuoteReply>;

export function createQuoteService({ db, clock }: Platform) {
  return {
    /** Prices a piece, or all of a commission, as the book stands; keeps nothing. */
    estimate(
      actor: Actor,
      { pieceId, commissionId, overrides }: z.infer<typeof EstimateAsked>,
    ): z.infer<typeof EstimateFromBook> {
      if ((pieceId === undefined) === (commissionId === undefined))
        holdFields([{ pointer: '/pieceId', detail: 'Say a piece or a commission: one of them.' }], null);
      const { pieces, copies } =
        pieceId === undefined ? ofCommission(db, commissionId!) : { pieces: [getPiece(db, pieceId)], copies: 1 };
      const { request, answer } = pricePieces(db, pieces, { overrides, copies, confirmed: actor.confirmed });
      const undrawn = copies - pieces.length;
      return {
        request: { ...request },
        answer,
        profit: profitBothWays(answer, request),
        assumes:
          undrawn > 0 && pieces.length > 0
            ? [`${undrawn} pieces that are not drawn yet are taken to be like ${pieces.at(-1)!.number}`]
            : [],
      };
    },

    add(actor: Actor, { commissionId, ...wanted }: z.infer<typeof NewQuote>): Reply {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        return show(tx, actor, writeSketch(tx, by, getCommission(tx, commissionId), wanted));
      });
    },

    get: (actor: Actor, id: string): Reply => show(db, actor, store.getQuote(db, id)),

    list: (actor: Actor, query: Page & store.QuoteFilter) =>
      pageOf(store.listQuotes(db, query), query, (row) => ({ ...show(db, actor, row), inside: null })),

    change(actor: Actor, id: string, seen: number, change: z.infer<typeof QuoteChange>): Reply {
      return db.transaction((tx) => {
        const before = store.getQuote(tx, id);
        holdToVersion('quote', before.version, seen);
        if (before.state !== 'sketch')
          throw new Problem(
            'condition-not-met',
            `Cannot change version ${before.number}: it is ${before.state}. Copy it to the next version: POST /quotes with "from"`,
          );
        const commission = getCommission(tx, before.commissionId);
        return show(tx, actor, changeSketch(tx, writtenBy(actor, clock.now()), before, { commission, ...change }));
      });
    },

    move(actor: Actor, id: string, sent: z.infer<typeof QuoteMove>): Reply {
      return db.transaction((tx) => {
        const now = clock.now();
        const before = store.getQuote(tx, id);
        const { guard } = holdToLifecycle('quote_version', actor, { state: before.state, sent, now });
        if (guard === 'reason-given' && sent.reason === undefined)
          throw new Problem('condition-not-met', `Cannot move version ${before.number} to ${sent.to}: say why, in "reason"`);
        const by = writtenBy(actor, now, sent.deviceId);
        const moved = { occurredAt: sent.occurredAt, reason: sent.reason ?? null };
        const make = MAKE[sent.to];
        const answered = sent.to === 'declined' ? { answeredAt: moved.occurredAt } : {};
        const after = make
          ? make(tx, by, before, moved)
          : writeMove(tx, by, before, { state: sent.to, stateReason: moved.reason, ...answered });
        return show(tx, actor, after);
      });
    },
  };
}

/** Moves that take more than a new state. */
const MAKE: Readonly<Record<string, typeof sendQuote>> = { sent: sendQuote, accepted: acceptQuote, replaced: replaceQuote };

function ofCommission(db: Db, commissionId: string) {
  const { id, quantity } = getCommission(db, commissionId);
  return { pieces: livePiecesOf(db, id), copies: quantity };
}

function show(db: Db, actor: Actor, row: store.QuoteRow): Reply {
  const { currency, netMinor, grossMinor } = row;
  const accepted = accountOf(db, row.commissionId).grossMinor;
  return {
    id: row.id,
    commissionId: row.commissionId,
    commissionNumber: getCommission(db, row.commissionId).number,
    number: row.number,
    state: row.state as Reply['state'],
    stateReason: row.stateReason,
    recipe: row.recipe,
    net: money(netMinor, currency),
    tax: money(grossMinor - netMinor, currency),
    gross: money(grossMinor, currency),
    deposit: money(row.depositMinor, currency),
    validUntil: row.validUntil,
    placeOfSale: row.placeOfSale,
    sentAt: row.sentAt,
    answeredAt: row.answeredAt,
    differenceFromAccepted: accepted === null || row.state === 'accepted' ? null : money(grossMinor - accepted, currency),
    inside: actor.roles.has('owner') ? inside(row) : null,
    allowedMoves: allowedMoves('quote_version', actor, { state: row.state }),
    version: row.version,
    createdAt: row.createdAt,
  };
}

function inside(row: store.QuoteRow): Reply['inside'] {
  const { request, answer, overrides, finePricePerG, finePriceAt } = row;
  return {
    request: { ...request },
    answer,
    overrides,
    profit: profitBothWays(answer, request),
    finePricePerG,
    finePriceAt,
    metalShareFraction: metalShareOf(row),
  };
}
