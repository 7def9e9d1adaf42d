import { loadColumns } from '../../../../shared/drawing/load-columns.ts';
import { pairedBars } from '../../../../shared/drawing/paired-bars.ts';
import { spreadChart } from '../../../../shared/drawing/spread-chart.ts';
import { stackedColumns } from '../../../../shared/drawing/stacked-columns.ts';
import type { MessageKey, Words } from '../../words/words.ts';
import type { Money, Report, ReportOf } from './report-columns.ts';
import { showBand, showHours, showMass, showMoney, showMonth, type Reader } from './show-value.ts';

export interface ReportPicture {
  name: string;
  svg: string;
}

type PictureName = MessageKey extends infer Key ? (Key extends `report.picture.${infer Name}` ? Name : never) : never;

/** So many bars are read at a glance; the table has all. */
const MOST_GROUPS = 10;
const MOST_DAYS = 28;

/** What a report looks like where that tells more than its table. */
export function reportPictures(report: Report, reader: Reader, width: number): ReportPicture[] {
  return report.report === 'remelt-warnings'
    ? (['solid_margin', 'verdict'] as const).map((by) => remelts(report, { by, reader, width }))
    : picturesOf(report, reader, width);
}

function picturesOf(report: Exclude<Report, { report: 'remelt-warnings' }>, reader: Reader, width: number): ReportPicture[] {
  const { words } = reader;
  const { say, percent, number } = words;
  const name = report.report;
  const bars = (of: { groups: Group[]; kinds: string[]; figure: (value: number) => string }) =>
    of.groups.length === 0
      ? []
      : [
          {
            name,
            svg: pairedBars({
              ...of,
              groups: of.groups.slice(0, MOST_GROUPS),
              words: wordsOf(name as PictureName, words, of.groups.length),
              width,
            }),
          },
        ];
  const columns = (of: { columns: { name: string; values: number[] }[]; kinds: string[]; figure: (value: number) => string }) =>
    of.columns.length === 0 ? [] : [{ name, svg: stackedColumns({ ...of, words: wordsOf(name as PictureName, words), width }) }];
  switch (report.report) {
    case 'quote-against-actual':
      return bars({
        groups: report.rows.map(({ number: numbered, title, quoted, actual }) => ({
          name: `${numbered} ${title}`,
          values: [quoted.cost?.amountMinor ?? null, actual.cost.amountMinor],
        })),
        kinds: [say('report.quoted'), say('report.actual')],
        figure: inMoney(report.currency, words),
      });
    case 'lost-money':
      return bars({
        groups: report.rows.map(({ number: numbered, title, plannedProfit, trueProfit }) => ({
          name: `${numbered} ${title}`,
          values: [plannedProfit.amountMinor, trueProfit.amountMinor],
        })),
        kinds: [say('report.planned'), say('report.true')],
        figure: inMoney(report.currency, words),
      });
    case 'earned-per-hour':
      return bars({
        groups: report.rows
          .flatMap(({ kind, earnedPerHour }) =>
            earnedPerHour ? [{ name: words.named('kind', kind), values: [minor(earnedPerHour)] }] : [],
          )
          .toSorted((a, b) => b.values[0]! - a.values[0]!),
        kinds: [say('report.column.earnedPerHour')],
        figure: inMoney(report.currency, words),
      });
    case 'stock-worth':
      return bars({
        groups: report.rows
          .map(({ product, value }) => ({ name: product, values: [minor(value)] }))
          .toSorted((a, b) => b.values[0]! - a.values[0]!),
        kinds: [say('report.column.value')],
        figure: inMoney(report.currency, words),
      });
    case 'mishaps':
      return bars({
        groups: report.rows.map(({ kind, cause, jointKind, grade, times }) => ({
          name: [
            [words.named('bench.incident', kind), ...(cause ? [words.named('report.likelyCause', cause)] : [])].join(': '),
            ...(jointKind ? [words.named('report.jointKind', jointKind)] : []),
            ...(grade ? [grade] : []),
          ].join(', '),
          values: [times],
        })),
        kinds: [say('report.column.times')],
        figure: (times) => number(times),
      });
    case 'metal-balance':
      return bars({
        groups: report.rows.map(({ metal, inPiecesG, inWorkG, putBackG, jarG, unexplainedG }) => ({
          name: metal,
          values: [inPiecesG, inWorkG, putBackG, jarG, unexplainedG],
        })),
        kinds: (['inPieces', 'inWork', 'putBack', 'jar', 'unexplained'] as const).map((word) => say(`report.column.${word}`)),
        figure: (grams) => showMass(grams, reader),
      });
    case 'pickle-baths':
      return bars({
        groups: report.rows.map(({ number: numbered, copper, acidUsed }) => ({
          name: numbered,
          values: [copper.fraction, acidUsed?.fraction ?? null],
        })),
        kinds: [say('report.copperUsed'), say('report.acidUsed')],
        figure: (share) => percent(share),
      });
    case 'quote-outcomes':
      return columns({
        columns: report.rows.map(({ month, accepted, declined, lapsed, replaced, open }) => ({
          name: showMonth(month, words),
          values: [accepted, declined, lapsed, replaced, open],
        })),
        kinds: (['accepted', 'declined', 'lapsed', 'replaced', 'unanswered'] as const).map((word) =>
          say(`report.column.${word}`),
        ),
        figure: (count) => number(count, Number.isInteger(count) ? 0 : 1),
      });
    case 'solder-use':
      return columns({ ...byMonth(report, words), figure: (grams) => showMass(grams, reader) });
    case 'bench-load':
      return [
        {
          name,
          svg: loadColumns({
            days: report.days.slice(0, MOST_DAYS).map((day, index) => ({
              ...day,
              name:
                index % 7 === 0
                  ? new Intl.DateTimeFormat(words.locale, { day: 'numeric', month: 'short', timeZone: 'UTC' }).format(
                      new Date(day.on),
                    )
                  : null,
            })),
            kinds: [say('report.taken'), say('report.capacity')],
            figure: (minutes) => showHours(minutes, words),
            words: wordsOf('bench-load', words),
            width,
          }),
        },
      ];
    case 'time-guesses':
      return report.rows.length === 0 ? [] : [{ name, svg: guessedTimes(report, words, width) }];
    case 'student-guesses':
      return report.rows.length === 0 ? [] : [{ name, svg: studentsRight(report, words, width) }];
    case 'late-work':
    case 'to-order':
    case 'money-owed':
    case 'year-end':
    case 'not-collected':
    case 'hallmark-packets':
      return [];
  }
}

interface Group {
  name: string;
  values: (number | null)[];
}

function byMonth({ rows }: ReportOf<'solder-use'>, words: Words) {
  const months = [...new Set(rows.map(({ month }) => month))].toSorted();
  const kinds = [...new Set(rows.map(({ name }) => name))].toSorted();
  const grams = (month: string, kind: string) =>
    rows.filter((row) => row.month === month && row.name === kind).reduce((sum, row) => sum + row.grams, 0);
  return {
    columns: months.map((month) => ({ name: showMonth(month, words), values: kinds.map((kind) => grams(month, kind)) })),
    kinds,
  };
}

function remelts(
  { rows }: ReportOf<'remelt-warnings'>,
  { by, reader, width }: { by: 'solid_margin' | 'verdict'; reader: Reader; width: number },
): ReportPicture {
  const { words } = reader;
  const name = by === 'verdict' ? 'remelt-verdict' : 'remelt-margin';
  return {
    name,
    svg: spreadChart({
      rows: rows
        .filter((row) => row.by === by)
        .map((row) => ({
          name: `${showBand(row, reader)}: ${row.remelts}/${row.joints}`,
          figure: words.percent(row.shownFraction, row.shownFraction < 0.1 ? 1 : 0),
          middle: row.shownFraction,
          low: row.leastFraction,
          high: row.mostFraction,
        })),
      from: 0,
      to: 1,
      tick: (share) => words.percent(share),
      words: wordsOf(name, words),
      width,
    }),
  };
}

/** Ratios within which records are held: by which one is four times off at most. */
const RATIOS = { from: 0.25, to: 4 };

function guessedTimes({ rows }: ReportOf<'time-guesses'>, words: Words, width: number): string {
  const times = (ratio: number) => `× ${words.number(ratio, 2)}`;
  return spreadChart({
    rows: rows.slice(0, MOST_GROUPS).map(({ operation, usualRatio, records }) => ({
      name: words.named('operation', operation),
      figure: times(usualRatio),
      middle: usualRatio,
      points: records.map(({ ratio }) => ratio),
    })),
    ...RATIOS,
    byRatio: true,
    tick: times,
    words: wordsOf('time-guesses', words, rows.length),
    width,
  });
}

function studentsRight({ rows }: ReportOf<'student-guesses'>, words: Words, width: number): string {
  return spreadChart({
    rows: rows.slice(0, MOST_GROUPS).map(({ student, right, guesses, rightFraction, leastFraction, mostFraction }) => ({
      name: `${student}: ${right}/${guesses}`,
      figure: rightFraction === null ? '–' : words.percent(rightFraction),
      middle: rightFraction,
      low: leastFraction,
      high: mostFraction,
    })),
    from: 0,
    to: 1,
    tick: (share) => words.percent(share),
    words: wordsOf('student-guesses', words, rows.length),
    width,
  });
}

function wordsOf(name: PictureName, { say }: Words, groups = 0): { title: string; description: string } {
  const title = say(`report.picture.${name}`);
  const first = groups > MOST_GROUPS ? `${say('report.pictureFirst', { count: MOST_GROUPS, all: groups })}. ` : '';
  return { title, description: first + say('report.pictureOf', { title }) };
}

function inMoney(currency: string, words: Words): (amountMinor: number) => string {
  return (amountMinor) => showMoney({ amountMinor, currency }, words);
}

function minor({ amountMinor }: Money): number {
  return amountMinor;
}
