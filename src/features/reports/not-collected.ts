import type { z } from 'zod';
import { dateInZone, daysBetween } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, type Column } from '../../platform/http/csv.ts';
import { lettersOf } from '../client-letters/index.ts';
import { getSettings } from '../settings/index.ts';
import type { NotCollectedReply } from './bench-reports.schema.ts';
import { readyPieces } from './bench-reports.store.ts';
import { within } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';

type Report = z.infer<typeof NotCollectedReply>;
type Row = Report['rows'][number];

/** Pieces of clients that are ready and still here, the longest first. */
export function notCollected(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const { timeZone } = getSettings(db);
  const today = dateInZone(now, timeZone);
  const rows = readyPieces(db).map(({ piece, commission, readyAt }): Row => {
    const readySince = dateInZone(new Date(readyAt), timeZone);
    const letters = lettersOf(db, piece.commissionId).filter(({ sentOn }) => sentOn >= readySince);
    return {
      pieceId: piece.id,
      number: piece.number,
      title: piece.title,
      commission,
      readySince,
      days: daysBetween(readySince, today),
      letters: letters.length,
      lastLetterOn: letters.at(-1)?.sentOn ?? null,
      keptAt: piece.whereabouts,
      entries: { letterIds: letters.map(({ id }) => id) },
    };
  });
  return {
    report: 'not-collected',
    asOf: now.toISOString(),
    ...period,
    today,
    about: [
      'Pieces that are ready, of commissions of a client that are made; by the day they became ready',
      'Letters: what was noted as written or said to the client since that day',
    ],
    rows: rows
      .filter(({ readySince }) => within(readySince, period))
      .toSorted((a, b) => b.days - a.days || a.number.localeCompare(b.number)),
  };
}

export function notCollectedCsv({ rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'piece', value: ({ number }) => number },
    { header: 'title', value: ({ title }) => title },
    { header: 'commission', value: ({ commission }) => commission },
    { header: 'ready_since', value: ({ readySince }) => readySince },
    { header: 'days', value: ({ days }) => days },
    { header: 'letters', value: ({ letters }) => letters },
    { header: 'last_letter_on', value: ({ lastLetterOn }) => lastLetterOn },
    { header: 'kept_at', value: ({ keptAt }) => keptAt },
  ];
  return csvOf(columns, rows);
}
