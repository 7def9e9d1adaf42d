import type { z } from 'zod';
import { groupBy } from '../../../shared/group-by.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, type Column } from '../../platform/http/csv.ts';
import { getSettings } from '../settings/index.ts';
import { getProduct, solderUses, toG } from '../stock/index.ts';
import { momentsOf, round, within } from './report-numbers.ts';
import type { Period, SolderUseReply } from './reports.schema.ts';
import { solderings } from './reports.store.ts';

type SolderUse = z.infer<typeof SolderUseReply>;
type Row = SolderUse['rows'][number];

/** What was used of each product in each month, how many joints it made, and how many of them were soldered again. */
export function solderUseReport(db: Db, { now, period }: { now: Date; period: Period }): SolderUse {
  const { timeZone } = getSettings(db);
  const moments = momentsOf(period, timeZone);
  const dated = <Thing extends { at: string; productId: string }>(things: Thing[]) =>
    things.map((thing) => ({ ...thing, day: dateInZone(new Date(thing.at), timeZone) })).filter(({ day }) => within(day, period));
  const uses = groupBy(dated(solderUses(db, moments)), keyOf);
  const joints = groupBy(dated(solderings(db, moments)), keyOf);
  const rows = [...new Set([...uses.keys(), ...joints.keys()])].map((key) =>
    rowOf(db, key, uses.get(key) ?? [], joints.get(key) ?? []),
  );
  return {
    report: 'solder-use',
    asOf: now.toISOString(),
    ...period,
    about: [
      'Grams: used and scrapped less put back, without what was reversed; what a count found missing is not in them',
      'Grams a joint: what heats took, spoilt ones included, for each joint that came out sound',
      'Redone: solderings of a joint that had been soldered before, as a share of all',
    ],
    rows: rows.toSorted((a, b) => a.month.localeCompare(b.month) || a.code.localeCompare(b.code)),
  };
}

function keyOf({ day, productId }: { day: string; productId: string }): string {
  return `${day.slice(0, 7)} ${productId}`;
}

function gramsOf(movements: { onHandTenthMg: number }[]): number {
  return toG(movements.reduce((total, { onHandTenthMg }) => total - onHandTenthMg, 0));
}

interface Soldering {
  outcome: string;
  redone: boolean;
  heatId: string;
}

function rowOf(
  db: Db,
  key: string,
  uses: { id: string; heatId: string | null; onHandTenthMg: number }[],
  joints: Soldering[],
): Row {
  const [month = '', productId = ''] = key.split(' ');
  const { code, name } = getProduct(db, productId);
  const inHeatsG = gramsOf(uses.filter(({ heatId }) => heatId !== null));
  const sound = joints.filter(({ outcome }) => outcome === 'sound').length;
  const redone = joints.filter((joint) => joint.redone).length;
  return {
    month,
    productId,
    code,
    name,
    grams: gramsOf(uses),
    inHeatsG,
    jointsMade: sound,
    gPerJoint: sound === 0 ? null : round(inHeatsG / sound, 6),
    solderings: joints.length,
    redone,
    redoneFraction: joints.length === 0 ? null : round(redone / joints.length, 4),
    entries: { movementIds: uses.map(({ id }) => id), heatIds: [...new Set(joints.map(({ heatId }) => heatId))] },
  };
}

export function solderUseCsv({ rows }: SolderUse): string {
  const columns: Column<Row>[] = [
    { header: 'month', value: ({ month }) => month },
    { header: 'product', value: ({ code }) => code },
    { header: 'name', value: ({ name }) => name },
    { header: 'used_g', value: ({ grams }) => grams },
    { header: 'used_in_heats_g', value: ({ inHeatsG }) => inHeatsG },
    { header: 'joints_made', value: ({ jointsMade }) => jointsMade },
    { header: 'g_per_joint', value: ({ gPerJoint }) => gPerJoint },
    { header: 'solderings', value: ({ solderings: all }) => all },
    { header: 'redone', value: ({ redone }) => redone },
    { header: 'redone_fraction', value: ({ redoneFraction }) => redoneFraction },
  ];
  return csvOf(columns, rows);
}
