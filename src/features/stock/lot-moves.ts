import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { CadmiumDocument } from '../../platform/db/json-columns.ts';
import { writtenBy, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { invalidFields, Problem, type FieldError } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { getSettings } from '../settings/index.ts';
import { lateDate } from './field-errors.ts';
import { booksClosedUntil } from './closed-books.ts';
import { inGrams, toG } from './grams.ts';
import { needsMark } from './lot-receipt.ts';
import type { SolderLotMove } from './solder-lots.schema.ts';
import { documentBy } from './stock-fields.ts';
import { getLot, updateLot, type LotRow } from './solder-lots.store.ts';
import { getProduct } from './solder-products.store.ts';
import { addMovement, onHandOf } from './stock-movements.store.ts';

type Sent = Omit<z.infer<typeof SolderLotMove>, 'document'> & { document?: CadmiumDocument | undefined };

/** Under this a lot may be called finished. */
const EMPTY_TENTH_MG = 500;

/** Moves a lot along its life cycle, with what each move asks for and does. */
export function moveLot(
  tx: Db,
  actor: Actor,
  { id, sent, now }: { id: string; sent: z.infer<typeof SolderLotMove>; now: Date },
): LotRow {
  const by = writtenBy(actor, now, sent.deviceId);
  const lot = getLot(tx, id);
  holdToLifecycle('lot', actor, { state: lot.state, sent, now });
  holdNothingElseSent(sent, lot.state, dateInZone(now, getSettings(tx).timeZone));
  const after = updateLot(tx, id, {
    ...change(tx, by, lot, { ...sent, document: documentBy(actor, sent.document) }),
    state: sent.to,
    version: lot.version + 1,
  });
  writeJournal(tx, by, { what: 'solder-lot', id, before: lot, after });
  return after;
}

function change(tx: Db, by: WrittenBy, lot: LotRow, sent: Sent): Partial<LotRow> {
  switch (sent.to) {
    case 'held_back':
      return {
        stateReason: reasonOf(lot, sent, 'reason: what is in doubt (the mark, the grade, cadmium)'),
        ...(sent.cadmiumStanding === undefined ? {} : { cadmiumStanding: sent.cadmiumStanding, cadmiumDocument: null }),
      };
    case 'open':
      return lot.state === 'held_back' ? doubtCleared(tx, lot, sent) : { stateReason: sent.reason ?? null };
    case 'finished':
      return finished(tx, by, lot, sent);
    default: {
      // written_off: the only other state the life cycle leads to.
      const reason = reasonOf(lot, sent, 'reason: why it is written off');
      bookAway(tx, by, lot, { kind: 'write_off', reason, at: new Date(sent.occurredAt) });
      return { stateReason: reason };
    }
  }
}

/** A doubt is cleared by what is written down: the mark it now carries, the test that was made, the document on cadmium. */
function doubtCleared(tx: Db, lot: LotRow, { reason, markOnMetal, document, ...sent }: Sent): Partial<LotRow> {
  const missing = [
    ...(reason === undefined ? ['reason: how the doubt was cleared'] : []),
    ...(needsMark(getProduct(tx, lot.productId).form) && lot.markOnMetal === null && markOnMetal === undefined
      ? ['markOnMetal: stamp, notch or dye the metal first']
      : []),
    ...(lot.cadmiumStanding === 'unknown' && document === undefined
      ? [
          'document: a supplier_sheet or laboratory_analysis that says there is no cadmium, with its reference and date; a bench test does not count',
        ]
      : []),
  ];
  if (lot.cadmiumStanding === 'yes') {
    throw new Problem(
      'cadmium-blocks',
      `Cannot open lot ${lot.number}: cadmium is in it. Write it off and hand it to those who may take it`,
      {
        lotId: lot.id,
        cadmiumStanding: lot.cadmiumStanding,
      },
    );
  }
  if (missing.length > 0) notMet(lot, sent.to, missing);
  return {
    stateReason: reason!,
    ...(markOnMetal === undefined ? {} : { markOnMetal }),
    ...(document === undefined ? {} : { cadmiumDocument: document, cadmiumStanding: 'no' as const }),
  };
}

/** What is left of a lot that is as good as empty leaves the book with it. */
function finished(tx: Db, by: WrittenBy, lot: LotRow, { reason, occurredAt }: Sent): Partial<LotRow> {
  const onHand = onHandOf(tx, lot.id);
  if (onHand >= EMPTY_TENTH_MG) {
    throw new Problem(
      'condition-not-met',
      `Cannot call lot ${lot.number} finished: the book has ${inGrams(onHand)} of it. Weigh it first; under 0.05 g it is finished`,
      { onHandG: toG(onHand) },
    );
  }
  bookAway(tx, by, lot, { kind: 'count_down', reason: reason ?? 'finished', at: new Date(occurredAt) });
  return { stateReason: reason ?? null };
}

/** Brings a lot to nothing; one that was below nothing is counted up. */
function bookAway(
  tx: Db,
  by: WrittenBy,
  lot: LotRow,
  { kind, reason, at }: { kind: 'write_off' | 'count_down'; reason: string; at: Date },
): void {
  const onHand = onHandOf(tx, lot.id);
  if (onHand === 0) return;
  const closedUntil = booksClosedUntil(tx, by.at);
  addMovement(tx, by, {
    kind: onHand > 0 ? kind : 'count_up',
    productId: lot.productId,
    lotId: lot.id,
    onHandTenthMg: -onHand,
    heldTenthMg: 0,
    reason,
    at: closedUntil !== null && at.toISOString() <= closedUntil ? by.at : at,
  });
}

function reasonOf(lot: LotRow, { to, reason }: Sent, missing: string): string {
  return reason ?? notMet(lot, to, [missing]);
}

function notMet(lot: LotRow, to: string, missing: string[]): never {
  throw new Problem(
    'condition-not-met',
    `Cannot move lot ${lot.number} to ${to.replaceAll('_', ' ')}; send ${missing.join('; and ')}`,
    {
      missing,
    },
  );
}

/** What belongs to another move is refused, so that nobody believes it was taken. */
function holdNothingElseSent(
  { to, markOnMetal, document, cadmiumStanding }: z.infer<typeof SolderLotMove>,
  from: string,
  today: string,
): void {
  const only = 'This is taken only when a held-back lot is opened.';
  const opening = from === 'held_back' && to === 'open';
  const errors: FieldError[] = [
    ...(markOnMetal !== undefined && !opening ? [{ pointer: '/markOnMetal', detail: only, given: markOnMetal }] : []),
    ...(document !== undefined && !opening ? [{ pointer: '/document', detail: only }] : []),
    ...(cadmiumStanding !== undefined && to !== 'held_back'
      ? [{ pointer: '/cadmiumStanding', detail: 'This is taken only when a lot is held back.', given: cadmiumStanding }]
      : []),
    ...lateDate('/document/datedOn', document?.datedOn, today),
  ];
  if (errors.length > 0) throw invalidFields(errors);
}
