import type { z } from 'zod';
import { compareEstimates } from '../../../shared/costing/compare-estimates.ts';
import type { Estimate, EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import { estimate } from '../../../shared/costing/estimate.ts';
import { keptScrap } from '../../../shared/costing/kept-scrap.ts';
import { fineness } from '../../../shared/costing/fineness.ts';
import { solderQuestions } from '../../../shared/costing/solder-questions.ts';
import { Decimal } from '../../../shared/decimal.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { money } from '../../platform/http/money.ts';
import { allowedMoves, holdToLifecycle } from '../../platform/http/moves.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { accountOf, getCommission } from '../commissions/index.ts';
import { getPiece, livePiecesOf, type PieceRow } from '../pieces/index.ts';
import { findPlaceRules, type PlaceRulesRow } from '../place-rules/index.ts';
import { askedBy, type Asked } from './estimate-request.ts';
import { changedInputs } from './changed-inputs.ts';
import { pricePieces, priceRequest, profitBothWays } from './price.ts';
import { acceptQuote, metalShareOf, replaceQuote, sendQuote, writeMove } from './quote-moves.ts';
import type {
  ComparisonReply,
  EstimateAsked,
  EstimateFromBook,
  NewQuote,
  QuoteChange,
  QuoteMove,
  QuoteReply,
  WhatIf,
  WhatIfReply,
} from './quotes.schema.ts';
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
      const { pieces, ...asked } = pieceId === undefined ? ofCommission(db, commissionId!) : ofPiece(db, pieceId);
      const { request, answer } = pricePieces(db, pieces, { overrides, ...asked, confirmed: actor.confirmed });
      const rules = asked.place === null ? undefined : findPlaceRules(db, asked.place);
      return {
        request: { ...request },
        answer,
        profit: profitBothWays(answer, request),
        scrapKept: scrapKept(request),
        run: runOf(request, answer),
        fineness: request.design.parts.length === 0 ? null : fineness(request, rules ?? null),
        assumes: assumptions(pieces, asked, rules),
        asks: solderQuestions(request),
      };
    },

    /** What a version would come to with some numbers changed; keeps nothing. */
    whatIf(actor: Actor, id: string, { overrides }: z.infer<typeof WhatIf>): z.infer<typeof WhatIfReply> {
      const row = store.getQuote(db, id);
      const { request, answer } = priceRequest(row.request, overrides, actor.confirmed);
      const before = wholeAnswer(row);
      return {
        before: { totals: before.totals, profit: profitBothWays(before, row.request) },
        after: { totals: answer.totals, profit: profitBothWays(answer, request) },
        differences: compareEstimates(before, answer),
        changed: changedInputs(row.request, request),
        answer,
      };
    },

    /** Two versions of one commission line by line. */
    compare(id: string, otherId: string): z.infer<typeof ComparisonReply> {
      const [row, other] = [store.getQuote(db, id), store.getQuote(db, otherId)];
      if (row.commissionId !== other.commissionId)
        throw invalidFields([{ pointer: '?with', detail: 'That version is of another commission.', given: otherId }]);
      if (row.currency !== other.currency)
        throw new Problem('condition-not-met', `Cannot compare: one is in ${row.currency}, the other in ${other.currency}`);
      const [before, after] = row.number < other.number ? [row, other] : [other, row];
      return {
        before: { id: before.id, number: before.number, state: before.state },
        after: { id: after.id, number: after.number, state: after.state },
        currency: row.currency,
        differences: compareEstimates(wholeAnswer(before), wholeAnswer(after)),
        changed: changedInputs(before.request, after.request),
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

function ofCommission(db: Db, commissionId: string): Omit<Asked, 'overrides'> & { pieces: PieceRow[] } {
  return { pieces: livePiecesOf(db, commissionId), ...askedBy(getCommission(db, commissionId)) };
}

function ofPiece(db: Db, pieceId: string): Omit<Asked, 'overrides'> & { pieces: PieceRow[] } {
  const piece = getPiece(db, pieceId);
  return { pieces: [piece], copies: 1, isRun: false, place: getCommission(db, piece.commissionId).placeOfSale };
}

function assumptions(
  pieces: PieceRow[],
  { copies, place }: Omit<Asked, 'overrides'>,
  rules: PlaceRulesRow | undefined,
): string[] {
  const undrawn = copies - pieces.length;
  return [
    ...(undrawn > 0 && pieces.length > 0
      ? [`${undrawn} pieces that are not drawn yet are taken to be like ${pieces.at(-1)!.number}`]
      : []),
    ...(typeof rules?.taxRateFraction === 'number' ? [`The tax rate is that of the rules for ${place}`] : []),
  ];
}

/** With what is sold, also where a version was written before that was kept: a recipe gives the same for ever. */
function wholeAnswer({ request, answer }: store.QuoteRow): Estimate {
  return { ...estimate(request), ...answer };
}

function scrapKept(request: EstimateRequest): z.infer<typeof EstimateFromBook>['scrapKept'] {
  if (request.policy.scrapCredit) return null;
  const { currency } = request;
  const metals = keptScrap(request);
  return {
    metals: metals.map(({ metal, fineG, worthMinor }) => ({ metal, fineG, worth: money(worthMinor, currency) })),
    worth: money(
      metals.reduce((sum, { worthMinor }) => sum + worthMinor, 0),
      currency,
    ),
  };
}

/** What one piece of a run comes to; the price of the run is what counts. */
function runOf({ labour }: EstimateRequest, { currency, totals }: Pick<Estimate, 'currency' | 'totals'>): Reply['run'] {
  const pieces = Math.max(1, ...labour.map(({ run }) => run?.pieces ?? 1));
  if (pieces === 1) return null;
  const each = (minor: number) =>
    money(new Decimal(minor).div(pieces).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber(), currency);
  return { pieces, netEach: each(totals.netMinor), grossEach: each(totals.grossMinor) };
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
    run: runOf(row.request, row.answer),
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
    scrapKept: scrapKept(request),
    finePricePerG,
    finePriceAt,
    metalShareFraction: metalShareOf(row),
  };
}
