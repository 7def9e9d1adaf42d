import { Decimal } from 'decimal.js';
import { estimate } from '../../../shared/costing/estimate.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { getCommission, isOver, type CommissionRow } from '../commissions/index.ts';
import { freezeLetter } from '../documents/index.ts';
import { livePiecesOf } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import { askedBy } from './estimate-request.ts';
import { requestNow } from './price.ts';
import * as store from './quotes.store.ts';

const DAY_MS = 86_400_000;

/** How a move comes to be: who makes it, when it was made, and why. */
export interface Moved {
  occurredAt: string;
  reason: string | null;
}

/** Sends a sketch: from now on it never changes, and a version sent before is replaced. */
export function sendQuote(tx: Db, by: WrittenBy, before: store.QuoteRow, moved: Moved): store.QuoteRow {
  const commission = getCommission(tx, before.commissionId);
  refuseIf('send', before, sendingLacks(tx, before, { commission, at: by.at }));
  for (const older of store.quotesIn(tx, before.commissionId, 'sent'))
    writeMove(tx, by, older, { state: 'replaced', stateReason: `version ${before.number} was sent` });
  const after = writeMove(tx, by, before, {
    state: 'sent',
    stateReason: moved.reason,
    placeOfSale: commission.placeOfSale,
    sentAt: moved.occurredAt,
  });
  freezeLetter(tx, after, by.at);
  return after;
}

/** The client's yes to a version that was sent. */
export function acceptQuote(tx: Db, by: WrittenBy, before: store.QuoteRow, moved: Moved): store.QuoteRow {
  refuseIf(
    'accept',
    before,
    whyNotAccepted(tx, before, by.at).map(({ says }) => says),
  );
  return writeMove(tx, by, before, { state: 'accepted', stateReason: moved.reason, answeredAt: moved.occurredAt });
}

/** What stands in the way of a yes: to say to the studio, and by what the client may be told of it. */
export interface NotAccepted {
  reason: 'not_open' | 'lapsed' | 'price_moved';
  says: string;
}

/** Everything that stands in the way of accepting a version that was sent; nothing, and it may be accepted. */
export function whyNotAccepted(tx: Db, row: store.QuoteRow, at: Date): NotAccepted[] {
  const [accepted] = store.quotesIn(tx, row.commissionId, 'accepted');
  return [
    ...(accepted
      ? [
          {
            reason: 'not_open' as const,
            says: `version ${accepted.number} is accepted: replace that one, which accepts the newest version sent`,
          },
        ]
      : []),
    ...acceptingLacks(tx, row, { commission: getCommission(tx, row.commissionId), at }),
  ];
}

/**
 * A change agreed later: the newest version that was sent is accepted in place of this one, in one step, since a commission
 * has one accepted version. A version that was sent is replaced by sending another, which needs no move of its own.
 */
export function replaceQuote(tx: Db, by: WrittenBy, before: store.QuoteRow, moved: Moved): store.QuoteRow {
  const newer = store.quotesIn(tx, before.commissionId, 'sent').find(({ number }) => number > before.number);
  refuseIf('replace', before, newer ? [] : ['send a newer version first']);
  const commission = getCommission(tx, before.commissionId);
  refuseIf(
    'accept',
    newer!,
    acceptingLacks(tx, newer!, { commission, at: by.at }).map(({ says }) => says),
  );
  const after = writeMove(tx, by, before, {
    state: 'replaced',
    stateReason: moved.reason ?? `version ${newer!.number} was accepted`,
  });
  writeMove(tx, by, newer!, { state: 'accepted', stateReason: null, answeredAt: moved.occurredAt });
  return after;
}

export function writeMove(tx: Db, by: WrittenBy, before: store.QuoteRow, change: Partial<store.QuoteRow>): store.QuoteRow {
  const after = store.updateQuote(tx, before.id, { ...change, version: before.version + 1 });
  writeJournal(tx, by, { what: 'quote', id: before.id, before: withoutWorking(before), after: withoutWorking(after) });
  return after;
}

/** A move leaves the working as it was when the version was written: that line of the journal has it. */
function withoutWorking({ request: _request, answer: _answer, overrides: _overrides, ...rest }: store.QuoteRow) {
  return rest;
}

interface Circumstances {
  commission: CommissionRow;
  at: Date;
}

function sendingLacks(tx: Db, row: store.QuoteRow, { commission, at }: Circumstances): string[] {
  const { finePriceMaxAgeDays, timeZone } = getSettings(tx);
  const ageDays = (at.getTime() - Date.parse(row.finePriceAt)) / DAY_MS;
  const today = dateInZone(at, timeZone);
  return [
    ...notWaiting(commission),
    ...(commission.placeOfSale === null ? ['note the place of sale, to choose tax and marking rules'] : []),
    ...(ageDays > finePriceMaxAgeDays
      ? [
          `the fine price is of ${row.finePriceAt.slice(0, 10)}, more than ${finePriceMaxAgeDays} days old: type today's in the settings and send the sketch new overrides, {} will do`,
        ]
      : []),
    ...(row.validUntil < today ? [`it would be valid until ${row.validUntil}, which has passed`] : []),
    ...(row.grossMinor > 0 ? [] : ['it asks for nothing']),
    ...(JSON.stringify(estimate(row.request)) === JSON.stringify(row.answer) ? [] : ['its lines do not add up again']),
    ...outdated(tx, row, commission),
  ];
}

/** What the letter would say of the pieces, or the place asks as tax, is not what was priced. */
function outdated(tx: Db, { request, overrides }: store.QuoteRow, commission: CommissionRow): string[] {
  const now = requestNow(tx, livePiecesOf(tx, commission.id), { overrides, ...askedBy(commission) });
  const [rate, rateNow] = [request.policy.tax.rateFraction, now.policy.tax.rateFraction];
  const again = 'send the sketch new overrides, {} will do';
  return [
    ...(JSON.stringify(now.design) === JSON.stringify(request.design)
      ? []
      : [`its pieces were drawn or planned again since it was priced: ${again}`]),
    ...(rate === rateNow ? [] : [`tax is ${rateNow} of the price now, and it was priced with ${rate}: ${again}`]),
  ];
}

function acceptingLacks(tx: Db, row: store.QuoteRow, { commission, at }: Circumstances): NotAccepted[] {
  const { timeZone, currency } = getSettings(tx);
  const today = dateInZone(at, timeZone);
  const all = (reason: NotAccepted['reason'], says: string[]) => says.map((one) => ({ reason, says: one }));
  return [
    ...all('not_open', notWaiting(commission)),
    ...all('lapsed', today > row.validUntil ? [`it was valid until ${row.validUntil}; today is ${today}`] : []),
    ...(row.currency === currency
      ? all('price_moved', finePriceMoved(tx, row))
      : all('not_open', [`it is in ${row.currency}, and the studio counts in ${currency} now: write the next version`])),
  ];
}

function notWaiting(commission: CommissionRow): string[] {
  const { number, state } = commission;
  if (state === 'called_off') return [`${number} is called off`];
  if (isOver(commission)) return [`commission ${number} is ${state.replaceAll('_', ' ')}`];
  return state === 'gone_quiet' ? [`${number} has gone quiet: move it to shaping when the client is back`] : [];
}

/** Where metal is little of the price, its price does not matter. */
function finePriceMoved(tx: Db, row: store.QuoteRow): string[] {
  const { finePrice, finePriceMoveFraction, metalShareFraction } = getSettings(tx);
  if (metalShareOf(row) <= metalShareFraction || !finePrice) return [];
  const moved = new Decimal(finePrice.perG).div(row.finePricePerG).minus(1);
  if (moved.abs().lt(finePriceMoveFraction)) return [];
  const percent = moved.mul(100).toDecimalPlaces(1).toString();
  return [
    `the fine price has moved by ${percent} % since, from ${row.finePricePerG} to ${finePrice.perG}: price the metal again (POST /quotes with "from" and "metalOnly")`,
  ];
}

/** Metal lines over the net. */
export function metalShareOf({ answer, netMinor }: store.QuoteRow): number {
  const metalMinor = answer.lines.filter(({ group }) => group === 'metal').reduce((sum, line) => sum + line.amountMinor, 0);
  return netMinor === 0 ? 0 : new Decimal(metalMinor).div(netMinor).toDecimalPlaces(4).toNumber();
}

function refuseIf(what: string, { number }: store.QuoteRow, missing: string[]): void {
  if (missing.length > 0)
    throw new Problem('condition-not-met', `Cannot ${what} version ${number}: ${missing.join('; ')}`, { missing });
}
