import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { Asked } from './asked.ts';
import { benchLoadCsv, benchLoadReport } from './bench-load-report.ts';
import { earnedPerHour, earnedPerHourCsv } from './earned-per-hour.ts';
import { hallmarkCsv, hallmarkReport } from './hallmark-report.ts';
import { lateWork, lateWorkCsv } from './late-work.ts';
import { lostMoney, lostMoneyCsv } from './lost-money.ts';
import { metalBalance, metalBalanceCsv } from './metal-balance.ts';
import { mishaps, mishapsCsv } from './mishaps.ts';
import { moneyOwed, moneyOwedCsv } from './money-owed.ts';
import { notCollected, notCollectedCsv } from './not-collected.ts';
import { pickleCsv, pickleReport } from './pickle-report.ts';
import { quoteAgainstActual, quoteAgainstActualCsv } from './quote-against-actual.ts';
import { quoteOutcomes, quoteOutcomesCsv } from './quote-outcomes.ts';
import { remeltWarnings, remeltWarningsCsv } from './remelt-warnings.ts';
import type { ReportName, ReportReply } from './reports.schema.ts';
import { solderUseCsv, solderUseReport } from './solder-use-report.ts';
import { stockWorth, stockWorthCsv } from './stock-worth.ts';
import { studentGuesses, studentGuessesCsv } from './student-guesses.ts';
import { timeGuesses, timeGuessesCsv } from './time-guesses.ts';
import { toOrder, toOrderCsv } from './to-order.ts';
import { yearEnd, yearEndCsv } from './year-end.ts';

type AnyReport = z.infer<typeof ReportReply>;

interface Entry {
  question: string;
  shows: string;
  /** Who may read it, beside the owner. */
  whose: 'owner' | 'desk' | 'tutor' | 'everybody';
  make: (db: Db, asked: Asked) => { report: AnyReport; csv: () => string };
}

/** Every report there is, in the order in which people ask. */
export const REPORTS: Readonly<Record<z.infer<typeof ReportName>, Entry>> = {
  'quote-against-actual': entry(
    'owner',
    'Did we make money on it?',
    'Quoted and actual minutes, metal, solder, cost, price and margin of each commission',
    quoteAgainstActual,
    quoteAgainstActualCsv,
  ),
  'time-guesses': entry(
    'owner',
    'Where do our guesses go wrong?',
    'Records of each operation, its usual ratio, the factor in use, and under what it stays eight times in ten',
    timeGuesses,
    timeGuessesCsv,
  ),
  'earned-per-hour': entry(
    'owner',
    'What pays per bench hour?',
    'Jobs, bench hours, net less what was bought in, and what an hour earned, by kind of work',
    earnedPerHour,
    earnedPerHourCsv,
  ),
  'lost-money': entry(
    'owner',
    'Which commissions lost money, and why?',
    'Planned and true margin of each commission, with the largest cause',
    lostMoney,
    lostMoneyCsv,
  ),
  'remelt-warnings': entry(
    'everybody',
    'Do the remelt warnings tell the truth?',
    'Heats and remelts by predicted solid margin and by verdict, with honest shares, and the rise that the record supports',
    remeltWarnings,
    remeltWarningsCsv,
  ),
  'bench-load': entry(
    'everybody',
    'Can we keep our dates?',
    'Minutes left of each commission, the running total against what the benches have, load and late days',
    benchLoadReport,
    benchLoadCsv,
  ),
  'late-work': entry(
    'everybody',
    'What is late or about to be?',
    'Commission, due date, days, what it waits for, and the last word to the client',
    lateWork,
    lateWorkCsv,
  ),
  'solder-use': entry(
    'everybody',
    'What do we use of each grade?',
    'Grams of each product by month, grams a joint, and the share that was soldered again',
    solderUseReport,
    solderUseCsv,
  ),
  'to-order': entry(
    'desk',
    'What must we order?',
    'By supplier: on hand, held, on order, order point, quantity, price, and whether the minimum is met',
    toOrder,
    toOrderCsv,
  ),
  'stock-worth': entry(
    'desk',
    'What is in the drawer worth?',
    'Grams, cost and value of each product and lot, what is held, and client metal apart',
    stockWorth,
    stockWorthCsv,
  ),
  mishaps: entry(
    'everybody',
    'What went wrong this season?',
    'Kind, cause, kind of joint, grade, times, minutes, solder; for the owner, who saw it and what it cost',
    mishaps,
    mishapsCsv,
  ),
  'metal-balance': entry(
    'everybody',
    'Where is the metal?',
    'Issued, in pieces, put back, in the jar, and what nothing explains, by metal',
    metalBalance,
    metalBalanceCsv,
  ),
  'quote-outcomes': entry(
    'desk',
    'Are quotes being taken?',
    'Sent, accepted, declined and lapsed by month, with median days and median discount',
    quoteOutcomes,
    quoteOutcomesCsv,
  ),
  'money-owed': entry(
    'desk',
    'Who owes us, whom do we owe?',
    'Gross, received, balance and age by commission, and deposits on work that is not begun',
    moneyOwed,
    moneyOwedCsv,
  ),
  'year-end': entry(
    'owner',
    'Year-end',
    'Stock at the lower of cost and value, unfinished pieces, filings, client metal, deposits held, tax by rate and month',
    yearEnd,
    yearEndCsv,
  ),
  'pickle-baths': entry(
    'everybody',
    'Is the pickle tired?',
    'Dips, copper, acid left and blushes of each bath',
    pickleReport,
    pickleCsv,
  ),
  'not-collected': entry(
    'everybody',
    'What has not been collected?',
    'Piece, ready since when, letters to its client, and where it is kept',
    notCollected,
    notCollectedCsv,
  ),
  'student-guesses': entry(
    'tutor',
    'How are the students doing?',
    'Plans, guesses and how many were right, first-time joints and incidents of each student',
    studentGuesses,
    studentGuessesCsv,
  ),
  'hallmark-packets': entry(
    'everybody',
    'Hallmark packets',
    'Packet, out, back, days, pieces, refused; for the owner, the cost per piece',
    hallmarkReport,
    hallmarkCsv,
  ),
};

function entry<Report extends AnyReport>(
  whose: Entry['whose'],
  question: string,
  shows: string,
  make: (db: Db, asked: Asked) => Report,
  csvOf: (report: Report) => string,
): Entry {
  return {
    whose,
    question,
    shows,
    make: (db, asked) => {
      const report = make(db, asked);
      return { report, csv: () => csvOf(report) };
    },
  };
}
