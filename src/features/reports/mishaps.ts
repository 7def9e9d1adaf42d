import type { z } from 'zod';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import { Decimal, sum } from '../../../shared/decimal.ts';
import { groupBy } from '../../../shared/group-by.ts';
import { onceEach } from '../../../shared/once-each.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import { money, toMinor } from '../../platform/http/money.ts';
import { actualCosts } from '../commissions/index.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { solderCostPerGOfHeats, toG } from '../stock/index.ts';
import type { Asked } from './asked.ts';
import type { MishapsReply } from './bench-reports.schema.ts';
import { designOfIncident, gradeInJoint, incidentsWithHeat, type IncidentWithHeat } from './bench-reports.store.ts';
import { momentsOf, round, within } from './report-numbers.ts';

type Report = z.infer<typeof MishapsReply>;
type Row = Report['rows'][number];

interface Costs {
  /** Of a minute at the bench, by commission. */
  perMinute: (commissionId: string) => Decimal;
  /** Of a gram of solder, by the heat that took it. */
  perG: (heatId: string) => Decimal | undefined;
}

interface Mishap extends IncidentWithHeat {
  jointKind: string | null;
  grade: string | null;
}

/** What went wrong, by kind, cause, kind of joint and grade, the most frequent first. */
export function mishaps(db: Db, { now, period, actor }: Asked): Report {
  const settings = getSettings(db);
  const found = incidentsWithHeat(db, momentsOf(period, settings.timeZone))
    .filter(({ incident }) => within(dateInZone(new Date(incident.seenAt), settings.timeZone), period))
    .map((one): Mishap => ({ ...one, jointKind: jointKindOf(db, one), grade: gradeInJoint(db, one) ?? one.heatGrade }));
  const groups = groupBy(found, ({ incident, jointKind, grade }) =>
    JSON.stringify([incident.kind, incident.likelyCause, jointKind, grade]),
  );
  const costs = actor.roles.has('owner')
    ? { perMinute: minuteCosts(db, found, settings), perG: solderCostPerGOfHeats(db) }
    : null;
  const rows = [...groups.values()]
    .map((own) => rowOf(own, { all: found.length, costs, currency: settings.currency }))
    .toSorted((a, b) => b.times - a.times || b.minutesLost - a.minutesLost || wordsOf(a).localeCompare(wordsOf(b)));
  let running = 0;
  return {
    report: 'mishaps',
    asOf: now.toISOString(),
    ...period,
    currency: settings.currency,
    about: [
      'Incidents by the day they were seen',
      'Money: the minutes lost at what a minute of that commission came to (time, overhead, consumables), or at the rates in the settings where no time was noted on it, and the solder at what the ledger says it cost',
      'Those minutes were worked and that solder was booked: they are in the actual cost already, and shown here apart',
    ],
    rows: rows.map((row) => {
      running += row.times;
      return { ...row, runningFraction: round(running / found.length, 4) };
    }),
  };
}

function rowOf(own: Mishap[], { all, costs, currency }: { all: number; costs: Costs | null; currency: string }): Row {
  const { incident, jointKind, grade } = own[0]!;
  const incidents = own.map((one) => one.incident);
  const total = (of: (one: Mishap['incident']) => number | null) =>
    incidents.reduce((running, one) => running + (of(one) ?? 0), 0);
  return {
    kind: incident.kind,
    cause: incident.likelyCause,
    jointKind,
    grade,
    times: own.length,
    fraction: round(own.length / all, 4),
    runningFraction: 0,
    open: incidents.filter(({ state }) => state === 'seen' || state === 'explained').length,
    minutesLost: total(({ minutesLost }) => minutesLost),
    minutesNotNoted: incidents.filter(({ minutesLost }) => minutesLost === null).length,
    solderG: toG(total(({ solderUsedTenthMg }) => solderUsedTenthMg)),
    money: costs && money(toMinor(sum(own.map((one) => costOf(one, costs))), currency), currency),
    people: costs && peopleOf(own),
    entries: { incidentIds: incidents.map(({ id }) => id) },
  };
}

function costOf({ incident, commissionId }: Mishap, { perMinute, perG }: Costs): Decimal {
  const solder = ((incident.heatId === null ? undefined : perG(incident.heatId)) ?? new Decimal(0)).times(
    toG(incident.solderUsedTenthMg ?? 0),
  );
  return incident.minutesLost ? perMinute(commissionId).times(incident.minutesLost).plus(solder) : solder;
}

/** What a minute at the bench came to, by commission. */
function minuteCosts(db: Db, found: readonly Mishap[], settings: Settings): (commissionId: string) => Decimal {
  const actual = actualCosts(db, [...new Set(found.map(({ commissionId }) => commissionId))]);
  return onceEach((commissionId) => minuteCost(actual(commissionId), settings));
}

function minuteCost({ minutes, costMinor }: ReturnType<ReturnType<typeof actualCosts>>, settings: Settings): Decimal {
  if (minutes > 0) {
    const minor = costMinor.labour + costMinor.overhead + costMinor.consumables;
    return new Decimal(inMajor(money(minor, settings.currency))!).div(minutes);
  }
  const { ratesPerHour, overheadPerBenchHour, consumablesPerBenchHour } = settings;
  return sum([ratesPerHour['bench'] ?? '0', overheadPerBenchHour, consumablesPerBenchHour].map((rate) => new Decimal(rate))).div(
    60,
  );
}

function peopleOf(own: readonly Mishap[]): Row['people'] {
  return [...groupBy(own, ({ incident }) => incident.seenBy)]
    .map(([personId, seen]) => ({ personId, name: seen[0]!.seer, times: seen.length }))
    .toSorted((a, b) => b.times - a.times || a.name.localeCompare(b.name));
}

function jointKindOf(db: Db, one: IncidentWithHeat): string | null {
  const { jointId } = one.incident;
  const design = jointId === null ? undefined : designOfIncident(db, one);
  return (design && expandDesign(design).design.joints.find(({ id }) => id === jointId)?.kind) ?? null;
}

function wordsOf({ kind, cause, jointKind, grade }: Row): string {
  return [kind, cause, jointKind, grade].join(' ');
}

export function mishapsCsv({ currency, rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'kind', value: ({ kind }) => kind },
    { header: 'cause', value: ({ cause }) => cause },
    { header: 'joint_kind', value: ({ jointKind }) => jointKind },
    { header: 'grade', value: ({ grade }) => grade },
    { header: 'times', value: ({ times }) => times },
    { header: 'fraction', value: ({ fraction }) => fraction },
    { header: 'running_fraction', value: ({ runningFraction }) => runningFraction },
    { header: 'open', value: ({ open }) => open },
    { header: 'lost_min', value: ({ minutesLost }) => minutesLost },
    { header: 'not_noted', value: ({ minutesNotNoted }) => minutesNotNoted },
    { header: 'solder_g', value: ({ solderG }) => solderG },
    { header: `money_${currency}`, value: (row) => inMajor(row.money) },
    { header: 'seen_by', value: ({ people }) => people?.map(({ name, times }) => `${name} ${times}`).join('; ') },
  ];
  return csvOf(columns, rows);
}
