import type { z } from 'zod';
import { groupBy } from '../../../shared/group-by.ts';
import { eightInTenMinutes, learnedFactor, unlearnedFactor } from '../../../shared/learning/learned-factor.ts';
import { newestRecords } from '../../../shared/learning/newest-records.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, type Column } from '../../platform/http/csv.ts';
import { factorInUse, operationRecords } from '../learning/index.ts';
import { getSettings } from '../settings/index.ts';
import type { TimeGuessesReply } from './bench-reports.schema.ts';
import { momentsOf, round, within } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';

type Report = z.infer<typeof TimeGuessesReply>;
type Row = Report['rows'][number];
type DatedRecord = ReturnType<typeof operationRecords>[number] & { day: string };

/** What each operation took against what was guessed, the farthest from what prices reckon with first. */
export function timeGuesses(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const { timeZone, newStudioFactor } = getSettings(db);
  const records = operationRecords(db, momentsOf(period, timeZone))
    .map((record) => ({ ...record, day: dateInZone(new Date(record.at), timeZone) }))
    .filter(({ day }) => within(day, period));
  const hasPeriod = period.from !== null || period.to !== null;
  return {
    report: 'time-guesses',
    asOf: now.toISOString(),
    ...period,
    about: [
      'One record: what an operation of a commission whose pieces are finished took, by agreed times less what incidents took, against the minutes guessed before any factor; its day is that on which it was done last',
      'Usual ratio: the median of the records, each held within 0.25 to 4',
      hasPeriod ? 'Of all records in the period' : 'Records over 24 months old are left out once eight newer ones exist',
      'Factor in use: as it was accepted last, or what a new studio starts with; eight in ten: times a guessed minute, the operation stays under it',
    ],
    rows: [...groupBy(records, ({ operation }) => operation)]
      .map(([operation, own]) =>
        rowOf(db, operation, { records: hasPeriod ? own : newestRecords(own, now.toISOString()), newStudioFactor }),
      )
      .toSorted((a, b) => farness(b) - farness(a) || a.operation.localeCompare(b.operation)),
  };
}

function rowOf(
  db: Db,
  operation: string,
  { records, newStudioFactor }: { records: DatedRecord[]; newStudioFactor: number },
): Row {
  const accepted = factorInUse(db, operation);
  const { factor, shrunkSpread } = accepted ?? unlearnedFactor(newStudioFactor);
  const eightInTen = eightInTenMinutes({ minutes: 1, factor, shrunkSpread });
  return {
    operation,
    n: records.length,
    usualRatio: round(learnedFactor(records.map(({ ratio }) => ratio)).usualRatio, 4),
    factorInUse: round(factor, 4),
    accepted: accepted !== undefined,
    eightInTen: round(eightInTen, 4),
    stayedUnder: records.filter(({ ratio }) => ratio <= eightInTen).length,
    records: records.map(({ commissionId, number, day, estimateMinutes, actualMinutes, ratio }) => ({
      commissionId,
      number,
      day,
      estimateMinutes,
      actualMinutes,
      ratio: round(ratio, 4),
    })),
  };
}

function farness({ usualRatio, factorInUse: inUse }: Row): number {
  return Math.abs(Math.log(usualRatio / inUse));
}

export function timeGuessesCsv({ rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'operation', value: ({ operation }) => operation },
    { header: 'n', value: ({ n }) => n },
    { header: 'usual_ratio', value: ({ usualRatio }) => usualRatio },
    { header: 'factor_in_use', value: (row) => row.factorInUse },
    { header: 'eight_in_ten_ratio', value: ({ eightInTen }) => eightInTen },
    { header: 'stayed_under', value: ({ stayedUnder }) => stayedUnder },
  ];
  return csvOf(columns, rows);
}
