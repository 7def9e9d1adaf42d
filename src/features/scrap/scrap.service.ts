import type { z } from 'zod';
import { minorDigits } from '../../../shared/costing/currency.ts';
import { Decimal } from '../../../shared/decimal.ts';
import { jarIsWorthSending, scrapReturn } from '../../../shared/stock/scrap-return.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { money, sayMoney, toMinor } from '../../platform/http/money.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { newId, nextNumber } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { lateDate, toG, toTenthMg } from '../stock/index.ts';
import { jarsNow, type Jar } from './jars.ts';
import type { JarsReply, NewScrapReturn, ScrapReturnQuery, Settlement } from './scrap.schema.ts';
import * as store from './scrap.store.ts';

export type ScrapService = ReturnType<typeof createScrapService>;

export function createScrapService({ db, clock }: Platform) {
  return {
    /** What lies in the jars by the books, and whether it is worth sending. */
    jars(): z.infer<typeof JarsReply> {
      return {
        asOf: clock.now().toISOString(),
        jars: jarsNow(db).map((jar) => ({
          jar: jar.jar,
          expectedFineG: jar.expectedFineTenthMg === null ? null : toG(jar.expectedFineTenthMg),
          expectedG: jar.expectedTenthMg === null ? null : toG(jar.expectedTenthMg),
          pieces: jar.pieces.length,
          advice: adviceOn(db, jar),
        })),
      };
    },

    /** Sends a jar: what the books expected in it goes with it, and the jar is empty. */
    send(actor: Actor, { weighedG, ...sent }: z.infer<typeof NewScrapReturn>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        holdFields(lateDate('/sentOn', sent.sentOn, dateInZone(by.at, getSettings(tx).timeZone)), actor.confirmed);
        const jar = jarsNow(tx).find((one) => one.jar === sent.jar)!;
        const row = store.insertReturn(tx, {
          ...sent,
          id: newId(by.at),
          number: `S${nextNumber(tx, 'scrap-return')}`,
          weighedTenthMg: toTenthMg(weighedG),
          expectedFineTenthMg: jar.expectedFineTenthMg,
          createdAt: by.at.toISOString(),
        });
        for (const piece of jar.pieces) store.insertReturnPiece(tx, { ...piece, returnId: row.id, jar: sent.jar });
        writeJournal(tx, by, { what: 'scrap-return', id: row.id, after: row });
        return show(tx, row);
      });
    },

    get: (id: string) => show(db, store.getReturn(db, id)),

    list(query: z.infer<typeof ScrapReturnQuery>) {
      const { currency } = getSettings(db);
      return pageOf(store.listReturns(db, query), query, (row) => show(db, row, currency));
    },

    /** What the refiner wrote: what came of it, and how much of what was expected was found. */
    settle(actor: Actor, id: string, settlement: z.infer<typeof Settlement>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const before = store.getReturn(tx, id);
        holdStands(before, 'settle');
        if (before.settlement)
          throw new Problem(
            'condition-not-met',
            `Cannot settle ${before.number} again: it was on ${before.settlement.settledOn}`,
          );
        const { currency, timeZone } = getSettings(tx);
        holdFields(
          [
            ...lateDate('/settledOn', settlement.settledOn, dateInZone(by.at, timeZone)),
            ...earlyErrors(before, settlement.settledOn),
          ],
          actor.confirmed,
        );
        const { barG, fineG, paid, fees, credit } = scrapReturn(
          { ...settlement, jarG: toG(before.weighedTenthMg) },
          minorDigits(currency),
        );
        const minor = (amount: string) => toMinor(new Decimal(amount), currency);
        const after = store.updateReturn(tx, id, {
          settlement: { ...settlement, barG, fineG, paidMinor: minor(paid), feesMinor: minor(fees), creditMinor: minor(credit) },
          version: before.version + 1,
        });
        writeJournal(tx, by, { what: 'scrap-return', id, before, after });
        return show(tx, after);
      });
    },

    /** Takes back what was noted last of a return: its settlement, else that it was sent at all. */
    takeBack(actor: Actor, id: string, reason: string) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const before = store.getReturn(tx, id);
        holdStands(before, 'take back');
        const version = before.version + 1;
        const takenBack = { reason, at: by.at.toISOString() };
        if (!before.settlement) intoItsJar(tx, before);
        const after = store.updateReturn(tx, id, before.settlement ? { settlement: null, version } : { takenBack, version });
        writeJournal(tx, by, { what: 'scrap-return', id, before, after: { ...after, takenBack } });
        return show(tx, after);
      });
    },
  };
}

/** @throws {Problem} condition-not-met for what was never sent */
function holdStands({ number, takenBack }: store.ScrapReturnRow, what: string): void {
  if (takenBack === null) return;
  throw new Problem('condition-not-met', `Cannot ${what} ${number}: it was taken back (${takenBack.reason})`);
}

/** Offcuts are counted since their jar was last sent, so an earlier sending stands while a later one does. */
function intoItsJar(db: Db, { id, number, jar }: store.ScrapReturnRow): void {
  const last = jar === 'offcuts' ? store.lastReturnOf(db, jar) : undefined;
  if (last && last.id !== id)
    throw new Problem(
      'condition-not-met',
      `Cannot take ${number} back: its jar was sent again with ${last.number}; take that back first`,
    );
  store.dropReturnPieces(db, id);
}

function earlyErrors({ sentOn }: store.ScrapReturnRow, settledOn: string): FieldError[] {
  if (settledOn >= sentOn) return [];
  return [{ pointer: '/settledOn', detail: `It was sent on ${sentOn}, after that.`, given: settledOn }];
}

/** A small jar is eaten by its fee. */
export function adviceOn(
  db: Db,
  { expectedFineTenthMg, expectedTenthMg }: Jar,
): z.infer<typeof JarsReply>['jars'][number]['advice'] {
  const { finePrice, refiner, currency } = getSettings(db);
  if (!finePrice || !refiner || expectedFineTenthMg === null || expectedTenthMg === null) return null;
  const feesExact = new Decimal(refiner.feePerG).times(toG(expectedTenthMg)).plus(refiner.feeFixed);
  const jar = {
    fineG: toG(expectedFineTenthMg),
    payFraction: refiner.payFraction,
    finePricePerG: finePrice.perG,
    fees: feesExact.toFixed(),
  };
  const { worth, timesFees, send } = jarIsWorthSending(jar);
  const [shown, fees] = [money(toMinor(new Decimal(worth), currency), currency), money(toMinor(feesExact, currency), currency)];
  return {
    worth: shown,
    fees,
    timesFees: timesFees === null ? null : Number(timesFees.toFixed(2)),
    send,
    says: send
      ? `It is worth about ${sayMoney(shown)}, and sending it costs ${sayMoney(fees)}.`
      : `Wait until the jar is worth five fees: it is worth about ${sayMoney(shown)}, and sending it costs ${sayMoney(fees)}.`,
  };
}

function show(
  db: Db,
  { weighedTenthMg, expectedFineTenthMg, settlement, ...row }: store.ScrapReturnRow,
  currency = getSettings(db).currency,
) {
  const expectedFineG = expectedFineTenthMg === null ? null : toG(expectedFineTenthMg);
  if (settlement === null)
    return { ...row, weighedG: toG(weighedTenthMg), expectedFineG, pieces: store.piecesInReturn(db, row.id), settlement };
  const { paidMinor, feesMinor, creditMinor, ...terms } = settlement;
  return {
    ...row,
    weighedG: toG(weighedTenthMg),
    expectedFineG,
    pieces: store.piecesInReturn(db, row.id),
    settlement: {
      ...terms,
      paid: money(paidMinor, currency),
      fees: money(feesMinor, currency),
      credit: money(creditMinor, currency),
      recoveredFraction: expectedFineG ? Number((terms.fineG / expectedFineG).toFixed(4)) : null,
    },
  };
}
