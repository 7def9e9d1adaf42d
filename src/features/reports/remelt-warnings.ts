import type { z } from 'zod';
import { shownShare } from '../../../shared/learning/shown-share.ts';
import { suggestedRise } from '../../../shared/learning/suggested-rise.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, type Column } from '../../platform/http/csv.ts';
import { getSettings } from '../settings/index.ts';
import type { RemeltWarningsReply } from './bench-reports.schema.ts';
import { reheatedJoints, type ReheatedJoint } from './reheated-joints.ts';
import { momentsOf, round, within } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';

type Report = z.infer<typeof RemeltWarningsReply>;
type Row = Report['rows'][number];

/** Of solid margin in K: from the first number, under the second. */
const BANDS: readonly (readonly [number | null, number | null])[] = [
  [null, -20],
  [-20, 0],
  [0, 20],
  [20, null],
];

const VERDICTS = ['runs', 'may_run', 'held', 'softens', 'may_soften', 'stays_solid'] as const;

/** How often joints that were made ran again, by what was predicted of them, and what that says of the rise. */
export function remeltWarnings(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const { timeZone, bench } = getSettings(db);
  const joints = reheatedJoints(db, timeZone, momentsOf(period, timeZone)).filter(({ day }) => within(day, period));
  const byMargin = BANDS.map(([fromK, toK]) =>
    rowOf({ by: 'solid_margin', band: bandInWords(fromK, toK), fromK, toK }, joints, ({ solidMarginK }) => {
      return (fromK === null || solidMarginK >= fromK) && (toK === null || solidMarginK < toK);
    }),
  );
  const byVerdict = VERDICTS.map((verdict) =>
    rowOf({ by: 'verdict', band: verdict, fromK: null, toK: null }, joints, (joint) => joint.verdict === verdict),
  );
  const { riseK: inUseK } = bench;
  const bare = joints.filter(({ antiFlow, verdict }) => !antiFlow && verdict !== 'held');
  const { steps, ...rise } = suggestedRise(
    bare.map(({ runMarginK, riseK, remelted }) => ({ runMarginK: runMarginK - riseK, remelted })),
    inUseK,
  );
  return {
    report: 'remelt-warnings',
    asOf: now.toISOString(),
    ...period,
    about: [
      'One case: a joint that was made, in the fire of a later heat that has ended; its margin and verdict are those of the plan in use',
      'Remelted: it moved, or an incident says that it reflowed; in the last heat before that in which it lay',
      'A heat that did not flow never got so hot: it counts only where a joint ran all the same',
      'Plain share: x/n; shown share: (x + ½)/(n + 1); the true share lies between least and most 95 times in 100 (Clopper and Pearson), as if each case were on its own; where none ran, under 3/n',
      'Rise: joints predicted to run, without anti-flow, in steps of 5 K; a step is supported once at most one in ten can have run. A rise, and a prediction that is too hot, look the same here',
    ],
    rise: {
      inUseK,
      ...rise,
      steps: steps.map((step) => ({ ...step, least: round(step.least, 4), most: round(step.most, 4) })),
    },
    rows: [...byMargin, ...byVerdict].filter(({ joints: count }) => count > 0),
  };
}

function rowOf(
  band: Pick<Row, 'by' | 'band' | 'fromK' | 'toK'>,
  joints: readonly ReheatedJoint[],
  isIn: (joint: ReheatedJoint) => boolean,
): Row {
  const own = joints.filter(isIn);
  const remelted = own.filter((joint) => joint.remelted);
  const { plain, shown, least, most } = shownShare({ happened: remelted.length, times: own.length });
  const heatIds = [...new Set(own.map(({ heatId }) => heatId))];
  return {
    ...band,
    heats: heatIds.length,
    joints: own.length,
    remelts: remelted.length,
    plainFraction: plain === null ? null : round(plain, 4),
    shownFraction: round(shown, 4),
    leastFraction: round(least, 4),
    mostFraction: round(most, 4),
    says: sayShare({ remelts: remelted.length, joints: own.length, shown, least, most }),
    entries: { heatIds, remelted: remelted.map(({ heatId, jointId }) => ({ heatId, jointId })) },
  };
}

/** Where even 3/n is the whole, so few say nothing. */
function sayShare({
  remelts,
  joints,
  ...of
}: {
  remelts: number;
  joints: number;
  shown: number;
  least: number;
  most: number;
}): string {
  if (remelts > 0) return `${remelts} of ${joints}: ${percent(of.shown)}, between ${percent(of.least)} and ${percent(of.most)}`;
  return of.most < 1 ? `none of ${joints}: under ${percent(of.most)}` : `none of ${joints}: too few to tell`;
}

function bandInWords(fromK: number | null, toK: number | null): string {
  if (fromK === null) return `under ${toK} K`;
  return toK === null ? `${fromK} K and over` : `from ${fromK} to under ${toK} K`;
}

/** Two figures: 0.0089 as "0.9 %". */
function percent(fraction: number): string {
  const value = fraction * 100;
  return `${value < 10 ? value.toFixed(1) : value.toFixed(0)} %`;
}

export function remeltWarningsCsv({ rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'by', value: ({ by }) => by },
    { header: 'band', value: ({ band }) => band },
    { header: 'from_k', value: ({ fromK }) => fromK },
    { header: 'under_k', value: ({ toK }) => toK },
    { header: 'heats', value: ({ heats }) => heats },
    { header: 'joints', value: ({ joints }) => joints },
    { header: 'remelts', value: ({ remelts }) => remelts },
    { header: 'plain_fraction', value: ({ plainFraction }) => plainFraction },
    { header: 'shown_fraction', value: ({ shownFraction }) => shownFraction },
    { header: 'least_fraction', value: ({ leastFraction }) => leastFraction },
    { header: 'most_fraction', value: ({ mostFraction }) => mostFraction },
  ];
  return csvOf(columns, rows);
}
