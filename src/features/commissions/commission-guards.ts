import type { z } from 'zod';
import type { GuardOf } from '../../../shared/lifecycles/lifecycles.ts';
import type { Db } from '../../platform/db/client.ts';
import { money, sayMoney } from '../../platform/http/money.ts';
import { livePiecesOf } from '../pieces/index.ts';
import { accountOf } from './commission-account.ts';
import { isOurOwn } from './commission-fields.ts';
import type { CommissionMove } from './commissions.schema.ts';
import * as store from './commissions.store.ts';

export interface Asked {
  row: store.CommissionRow;
  sent: z.infer<typeof CommissionMove>;
  today: string;
}

/** What is missing before a move, each as a sentence; the owner may go past those that are marked. */
export interface Missing {
  says: string;
  overridable?: boolean;
}

type Guard = (db: Db, asked: Asked) => Missing[];

const nothing: Guard = () => [];
const missing = (absent: boolean, says: string): Missing[] => (absent ? [{ says }] : []);
const overridable = (found: Missing[]): Missing[] => found.map(({ says }) => ({ says, overridable: true }));

const reasonGiven: Guard = (_db, { sent }) => missing(sent.reason === undefined, 'say why, in "reason"');

const dueOnSet: Guard = (_db, { row, today }) => [
  ...missing(row.dueOn === null, 'set the due date'),
  ...missing(row.dueOn !== null && row.dueOn < today, `the due date, ${row.dueOn}, has passed: set another`),
];

/** What each guard of the life cycle asks for. */
const GUARDS: Readonly<Record<GuardOf<'commission'>, Guard>> = {
  'wish-noted': (_db, { row }) => [
    ...missing(row.wish === null, 'note what is wished for'),
    ...missing(row.clientId === null && !isOurOwn(row), 'pick the client'),
  ],
  'reason-given': reasonGiven,
  'quote-sent': (db, { row }) => missing(!someQuote(db, row, ['sent', 'accepted']), 'send a version of the quote'),
  'client-wants-change': nothing,
  'accepted-and-deposit': (db, asked) => [
    ...missing(!someQuote(db, asked.row, ['accepted']), 'a version of the quote has to be accepted'),
    ...dueOnSet(db, asked),
    ...overridable(depositMissing(db, asked)),
  ],
  // Only the clock makes this move.
  'no-answer-in-time': nothing,
  'client-back': nothing,
  'plan-checked-metal-ready': (db, { row }) => overridable(plansMissing(db, row)),
  'wait-named': (_db, { sent }) => missing(sent.waitingFor === undefined, 'say what it waits for, in "waitingFor"'),
  'wait-over': nothing,
  'every-piece-ready': (db, { row }) => notReady(db, row),
  'fault-seen': nothing,
  'balance-paid-photo-weight': (db, { row }) => [
    ...notReady(db, row),
    ...notWeighed(db, row),
    ...overridable(balanceLeft(db, row)),
  ],
  'nothing-owed': (db, { row }) => {
    const { balanceMinor, currency } = accountOf(db, row.id);
    return missing(balanceMinor !== 0, owed(balanceMinor, currency));
  },
  'no-quote-needed': (db, asked) => [
    ...missing(
      !isOurOwn(asked.row) && asked.row.kind !== 'repair',
      'send a quote and have it accepted: only own stock, teaching pieces and repairs go without',
    ),
    ...dueOnSet(db, asked),
    // "Accept now" for a repair waives the deposit.
    ...(asked.row.kind === 'repair' ? reasonGiven(db, asked) : []),
  ],
  'every-version-declined': (db, { row }) => [
    ...missing(someQuote(db, row, ['sent', 'accepted']), 'every version that was sent has to be declined'),
    ...missing(!someQuote(db, row, ['declined']), 'no version was declined'),
  ],
};

export function whatIsMissing(db: Db, guard: string | undefined, asked: Asked): Missing[] {
  return guard === undefined ? [] : GUARDS[guard as GuardOf<'commission'>](db, asked);
}

function someQuote(db: Db, { id }: store.CommissionRow, states: string[]): boolean {
  return store.quotesOf(db, id).some(({ state }) => states.includes(state));
}

function depositMissing(db: Db, { row }: Asked): Missing[] {
  const { depositMinor, receivedMinor, currency } = accountOf(db, row.id);
  const leftMinor = (depositMinor ?? 0) - receivedMinor;
  return missing(leftMinor > 0, `${sayMoney(money(leftMinor, currency))} of the deposit is not received yet`);
}

function plansMissing(db: Db, { id }: store.CommissionRow): Missing[] {
  const pieces = livePiecesOf(db, id);
  const checked = store.piecesWithCheckedPlan(
    db,
    pieces.map((piece) => piece.id),
  );
  return [
    ...missing(pieces.length === 0, 'it has no piece yet'),
    ...pieces.filter((piece) => !checked.has(piece.id)).map(({ number }) => ({ says: `${number} has no checked plan` })),
  ];
}

/** Weight and photo are taken when a piece becomes ready. */
function notReady(db: Db, { id }: store.CommissionRow): Missing[] {
  const pieces = livePiecesOf(db, id);
  return [
    ...missing(pieces.length === 0, 'it has no piece'),
    ...pieces
      .filter(({ state }) => state !== 'ready' && state !== 'given')
      .map(({ number, state }) => ({ says: `${number} is ${state.replaceAll('_', ' ')}, not ready` })),
  ];
}

function notWeighed(db: Db, { id }: store.CommissionRow): Missing[] {
  return livePiecesOf(db, id)
    .filter(({ weighedTenthMg }) => weighedTenthMg === null)
    .map(({ number }) => ({ says: `${number} has no final weight` }));
}

function balanceLeft(db: Db, { id }: store.CommissionRow): Missing[] {
  const { balanceMinor, currency } = accountOf(db, id);
  return missing(balanceMinor > 0, owed(balanceMinor, currency));
}

function owed(balanceMinor: number, currency: string): string {
  return balanceMinor > 0
    ? `the client owes ${sayMoney(money(balanceMinor, currency))}`
    : `we owe the client ${sayMoney(money(-balanceMinor, currency))}`;
}
