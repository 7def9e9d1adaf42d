import { addDays } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { findClient } from '../clients/index.ts';
import { pieceExists, piecesIn, type CommissionRow } from './commissions.store.ts';

type Fields = Pick<CommissionRow, 'kind' | 'clientId' | 'quantity' | 'dueOn' | 'pointsToPieceId'>;

const OUR_OWN = new Set(['own_stock', 'teaching_piece']);

/** Kinds that nobody has ordered: no client, and no quote, is needed. */
export function isOurOwn({ kind }: Pick<CommissionRow, 'kind'>): boolean {
  return OUR_OWN.has(kind);
}

/** What is wrong with the fields of a commission that hang on other records, on each other or on today. */
export function fieldErrors(db: Db, wanted: Fields, { before, today }: { before?: CommissionRow; today: string }): FieldError[] {
  const errors: FieldError[] = [];
  if (wanted.clientId === null && !isOurOwn(wanted))
    errors.push({ pointer: '/clientId', detail: 'Pick a client, or mark it as own stock.', given: null });
  if (wanted.clientId !== null && wanted.clientId !== before?.clientId && !isKnown(db, wanted.clientId))
    errors.push({ pointer: '/clientId', detail: 'There is no such client.', given: wanted.clientId });
  if (wanted.pointsToPieceId !== null && wanted.pointsToPieceId !== before?.pointsToPieceId)
    errors.push(...pointsToErrors(db, wanted));
  const pieces = before === undefined ? 0 : piecesIn(db, before.id).length;
  if (wanted.quantity < pieces)
    errors.push({ pointer: '/quantity', detail: `There are ${pieces} pieces in it already.`, given: wanted.quantity });
  if (wanted.dueOn !== null && wanted.dueOn !== before?.dueOn) errors.push(...dueOnErrors(wanted.dueOn, today));
  return errors;
}

/** Whoever was forgotten orders nothing more: should they come back, they are a new client. */
function isKnown(db: Db, clientId: string): boolean {
  return findClient(db, clientId)?.forgottenAt === null;
}

function pointsToErrors(db: Db, { kind, pointsToPieceId }: Fields): FieldError[] {
  const error = (detail: string): FieldError[] => [{ pointer: '/pointsToPieceId', detail, given: pointsToPieceId }];
  if (kind !== 'repair') return error('Only a repair points to an earlier piece.');
  if (pointsToPieceId === null || pieceExists(db, pointsToPieceId)) return [];
  return error('That piece does not exist. Leave empty for a piece made elsewhere.');
}

const ASK_DAYS = { soonest: 3, latest: 365 };
const MOST_DAYS = 1095;

function dueOnErrors(dueOn: string, today: string): FieldError[] {
  const error = (detail: string): FieldError => ({ pointer: '/dueOn', detail, given: dueOn });
  if (dueOn < today) return [error(`The due date is in the past: today is ${today}.`)];
  if (dueOn > addDays(today, MOST_DAYS)) return [error(`The due date is more than ${MOST_DAYS} days away.`)];
  if (dueOn < addDays(today, ASK_DAYS.soonest))
    return [{ ...error(`That is less than ${ASK_DAYS.soonest} days from today, ${today}. Can it be done?`), confirmable: true }];
  if (dueOn > addDays(today, ASK_DAYS.latest))
    return [{ ...error(`That is more than a year from today, ${today}. Is the year right?`), confirmable: true }];
  return [];
}

const FIXED_ONCE_AGREED = new Set(['agreed', 'on_bench', 'resting', 'made']);
/** Once agreed, the due date is fixed: it changes only with a reason that is kept. */
export function agreedDateErrors(before: CommissionRow, dueOn: string | null): FieldError[] {
  if (!FIXED_ONCE_AGREED.has(before.state) || dueOn === before.dueOn) return [];
  const detail = `${before.dueOn} was agreed with the client. Have they agreed to another date?`;
  return dueOn === null
    ? [{ pointer: '/dueOn', detail: 'An agreed commission keeps a due date.', given: null }]
    : [{ pointer: '/dueOn', detail, given: dueOn, confirmable: true }];
}

/** Whose it is and of what kind was agreed too. */
export function agreedFieldErrors(before: CommissionRow, wanted: Fields): FieldError[] {
  if (!FIXED_ONCE_AGREED.has(before.state)) return [];
  return (['kind', 'clientId', 'quantity'] as const)
    .filter((field) => wanted[field] !== before[field])
    .map((field) => ({ pointer: `/${field}`, detail: `This was agreed and stays ${before[field]}.`, given: wanted[field] }));
}
