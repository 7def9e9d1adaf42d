import type { z } from 'zod';
import { dateInZone, daysBetween } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { worksHere, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { notFound, Problem, type FieldError } from '../../platform/http/problem.ts';
import { money, type Money } from '../../platform/http/money.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId, nextNumber } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { accountOf, showAccount } from './commission-account.ts';
import { agreedDateErrors, agreedFieldErrors, fieldErrors } from './commission-fields.ts';
import { moveCommission, type AcceptNow } from './commission-moves.ts';
import { isOver } from './commission-over.ts';
import { cancellationStatement } from './cancellation-statement.ts';
import { spendToDate } from './commission-spend.ts';
import type {
  CommissionChange,
  CommissionMove,
  CommissionReply,
  CommissionSummary,
  NewCommission,
} from './commissions.schema.ts';
import * as store from './commissions.store.ts';

export type CommissionService = ReturnType<typeof createCommissionService>;
type Given = z.infer<typeof NewCommission>;
type Summary = z.infer<typeof CommissionSummary>;

/** @param acceptNow writes version and acceptance of a repair in one step: quotes are written by their own feature */
export function createCommissionService({ db, clock }: Platform, acceptNow: AcceptNow) {
  const today = (tx: Db) => dateInZone(clock.now(), getSettings(tx).timeZone);

  function show(tx: Db, actor: Actor, row: store.CommissionRow): z.infer<typeof CommissionReply> {
    const seesMoney = actor.roles.has('desk');
    return {
      ...summarise(actor, row, {
        day: today(tx),
        currency: getSettings(tx).currency,
        names: store.clientNames(tx, row.clientId === null ? [] : [row.clientId]),
      }),
      pieces: store.piecesIn(tx, row.id),
      quotes: seesMoney
        ? store.quotesOf(tx, row.id).map(({ id, number, state, validUntil }) => ({ id, number, state, validUntil }))
        : [],
      account: seesMoney ? showAccount(accountOf(tx, row.id)) : null,
      spend: actor.roles.has('owner') ? spendToDate(tx, row.id) : null,
    };
  }

  return {
    /** What was spent on a commission and what is left of the money received, should it be called off. */
    cancellation: (id: string) => cancellationStatement(db, store.getCommission(db, id), clock.now()),

    add(actor: Actor, { budget, clientProperty, ...commission }: Given) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        holdFields(
          [...currencyErrors(tx, { budget, clientProperty }), ...fieldErrors(tx, commission, { today: today(tx) })],
          actor.confirmed,
        );
        const year = today(tx).slice(2, 4);
        const at = by.at.toISOString();
        const row = store.insertCommission(tx, {
          id: newId(by.at),
          number: `C${year}-${String(nextNumber(tx, `commission:${year}`)).padStart(3, '0')}`,
          ...commission,
          ...toColumns({ budget, clientProperty }),
          state: 'asked',
          stateSince: at,
          createdAt: at,
        });
        writeJournal(tx, by, { what: 'commission', id: row.id, after: row });
        return show(tx, actor, row);
      });
    },

    get: (actor: Actor, id: string) => show(db, actor, getVisible(db, actor, id)),

    /** The fields as they are kept, in the form they are given in. */
    stored(id: string) {
      const row = store.findCommission(db, id);
      return row && fieldsOf(row, getSettings(db).currency);
    },

    list(actor: Actor, query: Page & store.CommissionFilter) {
      if (!worksHere(actor) && query.kind !== undefined && query.kind !== PRACTICE) return { items: [], nextCursor: null };
      const rows = store.listCommissions(db, worksHere(actor) ? query : { ...query, kind: PRACTICE });
      const day = today(db);
      const { currency } = getSettings(db);
      const names = store.clientNames(db, [...new Set(rows.flatMap(({ clientId }) => clientId ?? []))]);
      return pageOf(rows, query, (row) => summarise(actor, row, { day, currency, names }));
    },

    change(actor: Actor, id: string, seen: number, { budget, clientProperty, ...change }: z.infer<typeof CommissionChange>) {
      return db.transaction((tx) => {
        const before = getVisible(tx, actor, id);
        holdToVersion('commission', before.version, seen);
        if (isOver(before))
          throw new Problem('condition-not-met', `Cannot change ${before.number}: it is ${before.state.replaceAll('_', ' ')}`);
        const given = {
          ...membersSent(change),
          ...toColumns({ budget, clientProperty }),
        };
        const wanted = { ...before, ...given };
        holdFields(
          [
            ...currencyErrors(tx, { budget, clientProperty }),
            ...fieldErrors(tx, wanted, { before, today: today(tx) }),
            ...agreedDateErrors(before, wanted.dueOn),
            ...agreedFieldErrors(before, wanted),
          ],
          actor.confirmed,
        );
        const after = store.updateCommission(tx, id, { ...given, version: before.version + 1 });
        writeJournal(tx, writtenBy(actor, clock.now()), { what: 'commission', id, before, after });
        return show(tx, actor, after);
      });
    },

    move(actor: Actor, id: string, sent: z.infer<typeof CommissionMove>) {
      return db.transaction((tx) => {
        const row = getVisible(tx, actor, id);
        return show(tx, actor, moveCommission(tx, { actor, row, sent, now: clock.now(), today: today(tx), acceptNow }));
      });
    },
  };
}

const PRACTICE = 'teaching_piece';

/** A student knows of practice pieces only. */
function getVisible(db: Db, actor: Actor, id: string): store.CommissionRow {
  const row = store.getCommission(db, id);
  if (!worksHere(actor) && row.kind !== PRACTICE) throw notFound('commission', id);
  return row;
}

interface ForSummary {
  day: string;
  currency: string;
  /** Of clients, by id. */
  names: ReadonlyMap<string, string>;
}

function summarise(actor: Actor, row: store.CommissionRow, { day, currency, names }: ForSummary): Summary {
  const seesMoney = actor.roles.has('desk');
  const { budget, clientProperty, clientId, ...fields } = fieldsOf(row, currency);
  return {
    ...fields,
    id: row.id,
    number: row.number,
    clientId: seesMoney ? clientId : null,
    clientName: clientId === null || !worksHere(actor) ? null : (names.get(clientId) ?? null),
    daysToDue: row.dueOn === null ? null : daysBetween(day, row.dueOn),
    budget: seesMoney ? budget : null,
    clientProperty: seesMoney ? clientProperty : clientProperty.map((one) => ({ ...one, declaredValue: null })),
    state: row.state as Summary['state'],
    stateReason: row.stateReason,
    stateSince: row.stateSince,
    waitingFor: row.waitingFor as Summary['waitingFor'],
    allowedMoves: allowedMoves('commission', actor, { state: row.state }),
    version: row.version,
    createdAt: row.createdAt,
  };
}

function fieldsOf(row: store.CommissionRow, currency: string) {
  const { title, clientId, wish, quantity, dueOn, budgetMinor, placeOfSale, clientProperty, pointsToPieceId, quiet } = row;
  return {
    title,
    kind: row.kind as Summary['kind'],
    clientId,
    wish,
    quantity,
    dueOn,
    budget: budgetMinor === null ? null : money(budgetMinor, currency),
    placeOfSale,
    clientProperty: clientProperty.map(({ what, weightG, declaredValueMinor }) => ({
      what,
      weightG,
      declaredValue: declaredValueMinor === undefined ? null : money(declaredValueMinor, currency),
    })),
    pointsToPieceId,
    quiet,
  };
}

interface Sums {
  budget?: Given['budget'] | undefined;
  clientProperty?: Given['clientProperty'] | undefined;
}

function toColumns({ budget, clientProperty }: Sums): Partial<store.CommissionRow> {
  return {
    ...(budget === undefined ? {} : { budgetMinor: budget?.amountMinor ?? null }),
    ...(clientProperty === undefined
      ? {}
      : {
          clientProperty: clientProperty.map(({ what, weightG, declaredValue }) => ({
            what,
            weightG,
            ...(declaredValue === null ? {} : { declaredValueMinor: declaredValue.amountMinor }),
          })),
        }),
  };
}

/** Sums are kept in the studio's own currency. */
function currencyErrors(db: Db, { budget, clientProperty = [] }: Sums): FieldError[] {
  const { currency } = getSettings(db);
  const sums: [string, Money | null | undefined][] = [
    ['/budget', budget],
    ...clientProperty.map(({ declaredValue }, index): [string, Money | null] => [
      `/clientProperty/${index}/declaredValue`,
      declaredValue,
    ]),
  ];
  return sums
    .filter(([, sum]) => sum && sum.currency !== currency)
    .map(([pointer, sum]) => ({
      pointer: `${pointer}/currency`,
      detail: `The studio reckons in ${currency}.`,
      given: sum!.currency,
    }));
}
