import type { Heat, Plan } from './plan.ts';

/** A heat with its place in its plan, from 1. */
export interface PlacedHeat extends Heat {
  heat: number;
}

/** One heat that is not the same in two plans, with both sides. */
export interface HeatDifference {
  /** What it makes, or anneals. */
  joints: readonly string[];
  /** null: this plan has no such heat. */
  yours: PlacedHeat | null;
  theirs: PlacedHeat | null;
  /** In what they differ. */
  fields: string[];
  says: string;
}

const FIELDS = ['heat', 'solder', 'torch', 'support', 'flame', 'protections'] as const;

/**
 * In what two plans of one piece differ, heat by heat: heats that make the same joints are set beside each other, wherever they stand.
 *
 * @returns in the order of your plan, then what theirs has besides; empty for plans that say the same
 */
export function planDifference(yours: Plan, theirs: Plan): HeatDifference[] {
  const [mine, others] = [placed(yours), placed(theirs)];
  const left = new Map(others.map((heat) => [heat.key, heat.heat]));
  const compared = mine.map(({ key, heat }) => {
    const other = left.get(key);
    left.delete(key);
    return differenceOf(heat, other ?? null);
  });
  return [...compared, ...[...left.values()].map((other) => differenceOf(null, other))].filter(({ fields }) => fields.length > 0);
}

/** Heats by what they do: the joints they make, and which of its kind, should a plan do it twice. */
function placed({ heats }: Plan): { key: string; heat: PlacedHeat }[] {
  const seen = new Map<string, number>();
  return heats.map((heat, index) => {
    const what = JSON.stringify([heat.purpose ?? 'solder', [...heat.joints].sort()]);
    const times = (seen.get(what) ?? 0) + 1;
    seen.set(what, times);
    return { key: `${what} ${times}`, heat: { heat: index + 1, ...heat } };
  });
}

function differenceOf(yours: PlacedHeat | null, theirs: PlacedHeat | null): HeatDifference {
  const joints = (yours ?? theirs)!.joints;
  const fields =
    yours === null || theirs === null ? ['heat'] : FIELDS.filter((field) => text(yours[field]) !== text(theirs[field]));
  return { joints, yours, theirs, fields, says: sentence({ joints, yours, theirs, fields }) };
}

function sentence({ joints, yours, theirs, fields }: Omit<HeatDifference, 'says'>): string {
  const name = joints.length === 0 ? 'the anneal' : joints.join(' and ');
  if (theirs === null) return `${name}: heat ${yours!.heat} of yours, in none of theirs`;
  if (yours === null) return `${name}: heat ${theirs.heat} of theirs, in none of yours`;
  const both = fields.map((field) => {
    const [mine, other] = [yours[field as 'solder'], theirs[field as 'solder']];
    if (field === 'heat') return `heat ${yours.heat} in yours, ${theirs.heat} in theirs`;
    return field === 'solder'
      ? `${mine ?? 'no solder'} in yours, ${other ?? 'no solder'} in theirs`
      : `another ${WORDS[field] ?? field}`;
  });
  return `${name}: ${both.join('; ')}`;
}

const WORDS: Readonly<Record<string, string>> = { protections: 'set of protections' };

/** The same text for the same value, however its members are ordered; what is absent is like nothing set. */
function text(value: unknown): string {
  if (Array.isArray(value)) return value.length === 0 ? '' : `[${value.map(text).join()}]`;
  if (typeof value === 'object' && value !== null) {
    const members = Object.entries(value).filter(([, member]) => member !== undefined);
    return `{${members
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, member]) => `${name}:${text(member)}`)
      .join()}}`;
  }
  return value === undefined ? '' : JSON.stringify(value);
}
