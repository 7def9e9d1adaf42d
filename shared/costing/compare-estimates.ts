import type { Estimate, EstimateTotals } from './estimate-request.ts';

export interface ComparedLine {
  group: string;
  label: string;
  /** Null where the estimate has no such line. */
  beforeMinor: number | null;
  afterMinor: number | null;
  differenceMinor: number;
}

export interface Comparison {
  /** What it costs, by line, in the order of the first, then what only the second has. */
  lines: ComparedLine[];
  /** What it is sold by. */
  sold: ComparedLine[];
  totals: { total: keyof EstimateTotals; beforeMinor: number; afterMinor: number; differenceMinor: number }[];
}

/**
 * Two estimates line by line: what each line was, what it is, and by how much it moved. Lines are paired by group and label.
 *
 * The differences of the lines add up to that of the base, those of what is sold to that of the net.
 *
 * @throws nothing; amounts are compared as they stand, so both estimates have to be in one currency
 * @source arithmetic
 */
export function compareEstimates(before: Estimate, after: Estimate): Comparison {
  return {
    lines: pair(before.lines.map(lineOf), after.lines.map(lineOf)),
    sold: pair(before.sold.map(soldOf), after.sold.map(soldOf)),
    totals: (Object.keys(before.totals) as (keyof EstimateTotals)[]).map((total) => ({
      total,
      beforeMinor: before.totals[total],
      afterMinor: after.totals[total],
      differenceMinor: after.totals[total] - before.totals[total],
    })),
  };
}

interface Line {
  group: string;
  label: string;
  minor: number;
}

const lineOf = ({ group, label, amountMinor }: Estimate['lines'][number]): Line => ({ group, label, minor: amountMinor });
const soldOf = ({ kind, label, netMinor }: Estimate['sold'][number]): Line => ({ group: kind, label, minor: netMinor });

function pair(before: Line[], after: Line[]): ComparedLine[] {
  const left = [...after];
  const paired = before.map(({ group, label, minor }) => {
    const at = left.findIndex((line) => line.group === group && line.label === label);
    const match = at < 0 ? undefined : left.splice(at, 1)[0];
    return { group, label, beforeMinor: minor, afterMinor: match?.minor ?? null };
  });
  const added = left.map(({ group, label, minor }) => ({ group, label, beforeMinor: null, afterMinor: minor }));
  return [...paired, ...added].map((line) => ({ ...line, differenceMinor: (line.afterMinor ?? 0) - (line.beforeMinor ?? 0) }));
}
