/** How many protections of each kind one heat takes, when each kind is limited. */

/** Protections that change what they are laid on and nothing else, by the bit that stands for each in a combination. */
export const GUARDED_KINDS = ['shield', 'sink', 'anti_flow'] as const;
export type GuardCaps = readonly [shield: number, sink: number, antiFlow: number];

const SETS = 1 << GUARDED_KINDS.length;
export const ALL_GUARDS = SETS - 1;

/** Stands for: cannot be done. */
export const NEVER = 255;

export const SIZE: readonly number[] = Array.from({ length: SETS }, (_, c) => (c & 1) + ((c >> 1) & 1) + ((c >> 2) & 1));

/** The fewest protections among those allowed that suffice; a family has the bit of every combination that does. */
const FEWEST = Uint8Array.from({ length: 256 * SETS }, (_, i) => {
  const [family, allowed] = [Math.floor(i / SETS), i % SETS];
  const sizes = SIZE.filter((_size, c) => (c & ~allowed) === 0 && (family & (1 << c)) !== 0);
  return Math.min(NEVER, ...sizes);
});

export const fewestGuards = (family: number, allowed: number): number => FEWEST[family * SETS + allowed]!;

const BY_SIZE: readonly number[] = Array.from({ length: SETS }, (_, c) => c).sort((a, b) => SIZE[a]! - SIZE[b]! || a - b);

/** By family and allowed, once asked for: combinations that suffice, none of which holds another, small ones first. */
const SUFFICIENT: (readonly number[] | undefined)[] = [];

function sufficient(family: number, allowed: number): readonly number[] {
  const known = SUFFICIENT[family * SETS + allowed];
  if (known) return known;
  const kept: number[] = [];
  for (const c of BY_SIZE) {
    if ((c & ~allowed) === 0 && (family & (1 << c)) !== 0 && !kept.some((other) => (c & other) === other)) kept.push(c);
  }
  SUFFICIENT[family * SETS + allowed] = kept;
  return kept;
}

/** One combination for each family, fewest in all, within what one heat holds; null where there is none. */
export function chooseGuards(families: readonly number[], allowed: readonly number[], caps: GuardCaps): number[] | null {
  const needy = families.flatMap((family, i) => ((family & 1) === 0 ? [i] : []));
  if (needy.length > caps[0] + caps[1] + caps[2]) return null;
  const choices = needy.map((i) => sufficient(families[i]!, allowed[i]!));
  const order = needy.map((_, k) => k).sort((a, b) => choices[a]!.length - choices[b]!.length || a - b);
  // What the items from the k-th on take at least.
  const rest: number[] = Array.from({ length: order.length + 1 }, () => 0);
  for (let k = order.length - 1; k >= 0; k--)
    rest[k] = rest[k + 1]! + Math.min(Infinity, ...choices[order[k]!]!.map((c) => SIZE[c]!));
  let best: number[] | null = null;
  let fewest = Infinity;
  const chosen: number[] = [];
  const place = (k: number, left: readonly number[], count: number): void => {
    if (count + rest[k]! >= fewest) return;
    if (k === order.length) {
      fewest = count;
      best = [...chosen];
      return;
    }
    for (const c of choices[order[k]!]!) {
      const after = left.map((each, kind) => each - ((c >> kind) & 1));
      if (after.some((each) => each < 0)) continue;
      chosen[k] = c;
      place(k + 1, after, count + SIZE[c]!);
    }
  };
  place(0, caps, 0);
  if (!best) return null;
  const all = families.map(() => 0);
  for (const [k, c] of (best as number[]).entries()) all[needy[order[k]!]!] = c;
  return all;
}

/** What one joint or part is left with: protections it may take, and how few of them each of its families then needs. */
interface Choice {
  allowed: number;
  needs: readonly number[];
}

/**
 * Every way to promise protections of one heat to its joints and parts within what it holds, of which none could promise more. A
 * promise costs nothing until it is used; it is what each may use at most.
 *
 * @param items by joint or part its families, one for each solder it may still be of
 * @param most ways found, or fifty times as many looked at, at which it ends
 * @returns the ways found, and whether those are all
 */
export function promises(
  items: readonly { families: readonly number[]; allowed: number }[],
  caps: GuardCaps,
  most: number,
  looked: () => void,
): { ways: number[][]; isAll: boolean } {
  const choices = items.map(({ families, allowed }) => choicesOf(families, allowed));
  const found: number[][] = [];
  let looks = 0;
  let isAll = true;
  const chosen: number[] = [];
  const place = (i: number, left: readonly number[]): void => {
    if (found.length >= most || looks >= most * LOOKS_FOR_ONE) {
      isAll = false;
      return;
    }
    looks++;
    looked();
    if (i === items.length) {
      const couldPromiseMore = chosen.some((allowed, k) =>
        choices[k]!.some(
          (other) =>
            other.allowed !== allowed &&
            (other.allowed & allowed) === allowed &&
            left.every((each, kind) => each >= (((other.allowed & ~allowed) >> kind) & 1)),
        ),
      );
      if (!couldPromiseMore) found.push([...chosen]);
      return;
    }
    for (const { allowed } of choices[i]!) {
      const after = left.map((each, kind) => each - ((allowed >> kind) & 1));
      if (after.some((each) => each < 0)) continue;
      chosen[i] = allowed;
      place(i + 1, after);
    }
  };
  place(0, caps);
  return { ways: found, isAll };
}

const LOOKS_FOR_ONE = 50;

function choicesOf(families: readonly number[], available: number): Choice[] {
  const kept: Choice[] = [];
  for (const allowed of BY_SIZE) {
    if ((allowed & ~available) !== 0) continue;
    const needs = families.map((family) => fewestGuards(family, allowed));
    if (needs.every((need) => need === NEVER)) continue;
    const isNoBetter = kept.some(
      (other) => (other.allowed & ~allowed) === 0 && other.needs.every((need, g) => need <= needs[g]!),
    );
    if (!isNoBetter) kept.push({ allowed, needs });
  }
  return kept.reverse();
}
