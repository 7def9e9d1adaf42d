import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, type Column } from '../../platform/http/csv.ts';
import { allBaths, bathClocks, sayBath } from '../baths/index.ts';
import { round, within } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';
import type { PickleReply } from './stock-reports.schema.ts';

type Report = z.infer<typeof PickleReply>;
type Row = Report['rows'][number];

/** How far each bath is gone, by copper and by acid, and where the spent ones went. */
export function pickleReport(db: Db, { now, period }: { now: Date; period: Period }): Report {
  return {
    report: 'pickle-baths',
    asOf: now.toISOString(),
    ...period,
    about: [
      'Baths mixed in the period; copper and acid counted from the heats that were dipped in each',
      'Oxide thickness and drag-out are assumed, and are in the settings; tiring at 80 % of a limit, spent at the limit',
    ],
    rows: allBaths(db)
      .filter(({ openedOn }) => within(openedOn, period))
      .map((bath): Row => {
        const clocks = bathClocks(db, bath);
        const { id, number, acid, openedOn, state, blushes, ph, goneTo, goneOn } = bath;
        return {
          bathId: id,
          number,
          acid,
          openedOn,
          state,
          dips: clocks.dips,
          copperGPerL: clocks.copperGPerL,
          copper: clocks.copper,
          acidUsed: clocks.acidUsed,
          acidLeftFraction: clocks.acidUsed && round(Math.max(0, 1 - clocks.acidUsed.fraction), 4),
          blushes,
          says: sayBath(bath, clocks),
          ph,
          goneTo,
          goneOn,
        };
      }),
  };
}

export function pickleCsv({ rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'bath', value: ({ number }) => number },
    { header: 'acid', value: ({ acid }) => acid },
    { header: 'opened_on', value: ({ openedOn }) => openedOn },
    { header: 'state', value: ({ state }) => state },
    { header: 'dips', value: ({ dips }) => dips },
    { header: 'copper_g_per_l', value: ({ copperGPerL }) => copperGPerL },
    { header: 'copper_used_fraction', value: ({ copper }) => copper.fraction },
    { header: 'acid_left_fraction', value: ({ acidLeftFraction }) => acidLeftFraction },
    { header: 'blushes', value: ({ blushes }) => blushes },
    { header: 'ph', value: ({ ph }) => ph },
    { header: 'gone_to', value: ({ goneTo }) => goneTo },
    { header: 'gone_on', value: ({ goneOn }) => goneOn },
  ];
  return csvOf(columns, rows);
}
