import type { z } from 'zod';
import { shownShare } from '../../../shared/learning/shown-share.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, type Column } from '../../platform/http/csv.ts';
import { guessesBetween } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import type { StudentGuessesReply } from './bench-reports.schema.ts';
import { momentsOf, round } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';
import { firstSolderings, incidentsByHand, plansMade, students } from './student-reports.store.ts';

type Report = z.infer<typeof StudentGuessesReply>;
type Row = Report['rows'][number];

const ALWAYS = { from: '0000', before: '9999' };

/** What students planned, guessed and soldered, each in a line. */
export function studentGuesses(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const { timeZone } = getSettings(db);
  const moments = momentsOf(period, timeZone);
  const learners = students(db);
  const ids = learners.map(({ id }) => id);
  const plans = plansMade(db, ids, moments);
  const guesses = guessesBetween(db, { from: moments.since ?? ALWAYS.from, before: moments.before ?? ALWAYS.before });
  const solderings = firstSolderings(db, ids, moments);
  const incidents = incidentsByHand(db, moments);
  const rows = learners.map(({ id, name }): Row => {
    const ofThem = <Thing extends { personId: string | null }>(things: Thing[]) =>
      things.filter(({ personId }) => personId === id);
    const own = { plans: ofThem(plans), guesses: ofThem(guesses), solderings: ofThem(solderings), incidents: ofThem(incidents) };
    const right = own.guesses.filter(({ guess, predicted }) => guess === predicted).length;
    const { plain, least, most } = shownShare({ happened: right, times: own.guesses.length });
    const share = (fraction: number) => (plain === null ? null : round(fraction, 4));
    return {
      personId: id,
      student: name,
      plans: own.plans.length,
      guesses: own.guesses.length,
      right,
      rightFraction: share(plain ?? 0),
      leastFraction: share(least),
      mostFraction: share(most),
      jointsSoldered: own.solderings.length,
      firstTimeJoints: own.solderings.filter(({ outcome }) => outcome === 'sound').length,
      incidents: own.incidents.length,
      entries: {
        planIds: own.plans.map((plan) => plan.id),
        guessIds: own.guesses.map((guess) => guess.id),
        heatIds: [...new Set(own.solderings.map(({ heatId }) => heatId))],
        incidentIds: own.incidents.map((incident) => incident.id),
      },
    };
  });
  return {
    report: 'student-guesses',
    asOf: now.toISOString(),
    ...period,
    about: [
      'Who only learns here, and did something in the period',
      'Right: a joint whose state (solid, softens, runs) was guessed as it was predicted then; the true share lies between least and most 95 times in 100 (Clopper and Pearson), and from 0 to 3/n where none was right',
      'First-time joints: of those soldered for the first time in heats they lit, those sound at once',
      'Incidents: of heats they lit, and those they saw outside of a heat',
    ],
    rows: rows.filter((row) => row.plans + row.guesses + row.jointsSoldered + row.incidents > 0),
  };
}

export function studentGuessesCsv({ rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'student', value: ({ student }) => student },
    { header: 'plans', value: ({ plans }) => plans },
    { header: 'guesses', value: ({ guesses }) => guesses },
    { header: 'right', value: ({ right }) => right },
    { header: 'right_fraction', value: ({ rightFraction }) => rightFraction },
    { header: 'least_fraction', value: ({ leastFraction }) => leastFraction },
    { header: 'most_fraction', value: ({ mostFraction }) => mostFraction },
    { header: 'joints_soldered', value: ({ jointsSoldered }) => jointsSoldered },
    { header: 'first_time_joints', value: ({ firstTimeJoints }) => firstTimeJoints },
    { header: 'incidents', value: ({ incidents }) => incidents },
  ];
  return csvOf(columns, rows);
}
