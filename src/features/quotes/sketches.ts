import type { EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import { repriceMetal } from '../../../shared/costing/reprice-metal.ts';
import { addDays, dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { invalidFields, Problem, type FieldError } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import { isOver, type CommissionRow } from '../commissions/index.ts';
import { livePiecesOf } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import { askedBy } from './estimate-request.ts';
import { mergeOverrides } from './merge-overrides.ts';
import { pricePieces, type Overrides, type Priced } from './price.ts';
import * as store from './quotes.store.ts';

interface Wanted {
  overrides: Overrides;
  validUntil?: string | undefined;
  from?: string | undefined;
  metalOnly?: boolean | undefined;
}

/** Writes the next version of a commission's quote, as a sketch. */
export function writeSketch(tx: Db, by: WrittenBy, commission: CommissionRow, wanted: Wanted): store.QuoteRow {
  if (isOver(commission))
    throw new Problem(
      'condition-not-met',
      `Cannot quote for ${commission.number}: it is ${commission.state.replaceAll('_', ' ')}`,
    );
  const settings = getSettings(tx);
  const today = dateInZone(by.at, settings.timeZone);
  const { validUntil = addDays(today, settings.quoteValidDays) } = wanted;
  holdFields(validUntilErrors(wanted.validUntil, today), by.confirmed);
  const overrides = overridesWanted(tx, commission, wanted);
  const priced = priceCommission(tx, commission, overrides, by);
  const row = store.insertQuote(tx, {
    id: newId(by.at),
    commissionId: commission.id,
    number: store.lastNumber(tx, commission.id) + 1,
    state: 'sketch',
    overrides,
    ...columnsOf(tx, priced, by),
    validUntil,
    createdAt: by.at.toISOString(),
  });
  writeJournal(tx, by, { what: 'quote', id: row.id, after: row });
  return row;
}

/** Prices a sketch again, from the book as it is now, with what was typed for it and what is typed now. */
export function changeSketch(
  tx: Db,
  by: WrittenBy,
  before: store.QuoteRow,
  {
    commission,
    overrides,
    validUntil,
  }: { commission: CommissionRow; overrides?: Overrides | undefined; validUntil?: string | undefined },
): store.QuoteRow {
  const today = dateInZone(by.at, getSettings(tx).timeZone);
  if (validUntil !== before.validUntil) holdFields(validUntilErrors(validUntil, today), by.confirmed);
  const all = mergeOverrides(before.overrides, overrides ?? {}) as Record<string, unknown>;
  const after = store.updateQuote(tx, before.id, {
    ...(overrides === undefined ? {} : { overrides: all, ...columnsOf(tx, priceCommission(tx, commission, all, by), by) }),
    ...(validUntil === undefined ? {} : { validUntil }),
    version: before.version + 1,
  });
  writeJournal(tx, by, { what: 'quote', id: before.id, before, after });
  return after;
}

function priceCommission(tx: Db, commission: CommissionRow, overrides: Overrides, { confirmed }: WrittenBy): Priced {
  return pricePieces(tx, livePiecesOf(tx, commission.id), { overrides, ...askedBy(commission), confirmed });
}

function overridesWanted(tx: Db, commission: CommissionRow, { from, metalOnly, overrides }: Wanted): Record<string, unknown> {
  if (from === undefined) {
    if (metalOnly) throw invalidFields([{ pointer: '/from', detail: 'Say which version keeps everything but its metal.' }]);
    return { ...overrides };
  }
  const old = store.getQuote(tx, from);
  if (old.commissionId !== commission.id)
    throw invalidFields([{ pointer: '/from', detail: 'That version is of another commission.', given: from }]);
  return mergeOverrides(metalOnly ? metalPricedAgain(tx, old) : old.overrides, overrides) as Record<string, unknown>;
}

function metalPricedAgain(tx: Db, { request }: store.QuoteRow): Record<string, unknown> {
  const { finePrice, currency } = getSettings(tx);
  if (!finePrice) throw new Problem('condition-not-met', 'Cannot price the metal again: type today’s fine price in the settings');
  if (request.currency !== currency)
    throw new Problem(
      'condition-not-met',
      `Cannot price the metal again: that version is in ${request.currency}, the fine price in ${currency}`,
    );
  return inPlaceOfBook(repriceMetal(request, finePrice.perG));
}

/** A request as overrides that leave nothing of the book's: what it does not have is taken out. */
function inPlaceOfBook(request: EstimateRequest): Record<string, unknown> {
  const { flux = null, pickle = null, gas, policy } = request;
  const { scrapCredit = null, discountFraction = null, depositFraction = null, tax } = policy;
  const { roundUpToMinor = null } = tax;
  return {
    ...request,
    flux,
    pickle,
    gas: gas ? { ...gas, oxygenPricePerG: gas.oxygenPricePerG ?? null } : null,
    policy: { ...policy, scrapCredit, discountFraction, depositFraction, tax: { ...tax, roundUpToMinor } },
  };
}

function columnsOf(tx: Db, { request, answer, finePriceTyped }: Priced, by: WrittenBy) {
  const { finePrice } = getSettings(tx);
  const { netMinor, grossMinor, depositMinor } = answer.totals;
  return {
    recipe: answer.recipe,
    request,
    answer,
    currency: request.currency,
    netMinor,
    grossMinor,
    depositMinor,
    finePricePerG: request.policy.finePricePerG,
    finePriceAt: finePriceTyped || !finePrice ? by.at.toISOString() : finePrice.typedAt,
  };
}

const VALID_DAYS = { least: 3, usual: 30, most: 180 };

function validUntilErrors(validUntil: string | undefined, today: string): FieldError[] {
  if (validUntil === undefined) return [];
  const error = (detail: string): FieldError => ({ pointer: '/validUntil', detail, given: validUntil });
  if (validUntil < today) return [error(`It would end before it is sent: today is ${today}.`)];
  if (validUntil > addDays(today, VALID_DAYS.most)) return [error(`That is more than ${VALID_DAYS.most} days away.`)];
  if (validUntil < addDays(today, VALID_DAYS.least) || validUntil > addDays(today, VALID_DAYS.usual))
    return [
      {
        ...error(`A quote is usually valid for ${VALID_DAYS.least} to ${VALID_DAYS.usual} days from today, ${today}.`),
        confirmable: true,
      },
    ];
  return [];
}
