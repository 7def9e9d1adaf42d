import type { DesignQuestion } from './design-problem.ts';
import { designProblem } from './design-problem.ts';
import { heatModelOracle } from './heat-model-oracle.ts';
import type { Conflict, Relaxation } from './plan-search-request.ts';
import { EVERY_PROTECTION, type Loosening } from './loosening.ts';
import { looseningsOf } from './loosenings.ts';
import { canBeMade, isSpent, remembering, type Purse } from './trial.ts';

/** Ways out that are told at most. */
const MOST_TOLD = 6;
/** Where fewer than this are found, two things together are tried. */
const FEW_TOLD = 3;

/**
 * What would let a plan be, the cheapest for the maker first: each thing let go is tried on the joints of the conflict, and where that
 * frees them, on the whole piece; where few do, two together that ask less than the one that does. Only what was tried and does is
 * given; a list cut short by the purse is no shorter for any other reason.
 *
 * @param conflict null: none was found, and all is tried on the whole
 */
export function* relaxations(
  question: DesignQuestion,
  conflict: Pick<Conflict, 'joints'> | null,
  purse: Purse,
): Generator<void, Relaxation[]> {
  const told: Told[] = [];
  const doing = new Set<string>();
  const loosenings = looseningsOf(question).toSorted((a, b) => a.price - b.price);
  for (const loosening of loosenings) {
    if (isSpent(purse) || told.length === MOST_TOLD) break;
    const { kind, price, change, says } = loosening;
    if (doing.has(kind) || (kind === EVERY_PROTECTION && [...doing].some((other) => other.startsWith('protection')))) continue;
    if (!(yield* frees(loosening.loosen(question), conflict, purse))) continue;
    told.push({ price, change, says });
    doing.add(kind);
  }
  // Two cheap things may ask less than the one dear thing that does.
  const least = told[0]?.price ?? Infinity;
  for (const [one, other] of told.length < FEW_TOLD ? pairsOf(loosenings, doing) : []) {
    const price = one.price + other.price;
    if (isSpent(purse) || told.length === FEW_TOLD || price >= least) break;
    if (!(yield* frees(other.loosen(one.loosen(question)), conflict, purse))) continue;
    told.push({ price, change: { together: [one.change, other.change] }, says: `${one.says}, and ${lower(other.says)}` });
  }
  return told.toSorted((a, b) => a.price - b.price).map(({ change, says }) => ({ change, says }));
}

interface Told extends Relaxation {
  price: number;
}

const lower = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);

/** Two things of different kinds, none of which does alone, the cheapest together first. */
function pairsOf(loosenings: readonly Loosening[], doing: ReadonlySet<string>): [Loosening, Loosening][] {
  const left = loosenings.filter(({ kind }) => !doing.has(kind));
  return (
    left
      .flatMap((one, i) => left.slice(i + 1).map((other): [Loosening, Loosening] => [one, other]))
      .filter(([one, other]) => one.kind !== other.kind)
      // Each names all the protections there may be.
      .filter(([one, other]) => !('protections' in one.change && 'protections' in other.change))
      .toSorted(([a, b], [c, d]) => a.price + b.price - c.price - d.price)
  );
}

/** Whether a plan can be: of the joints of the conflict first, then of the whole. */
function* frees(question: DesignQuestion, conflict: Pick<Conflict, 'joints'> | null, purse: Purse): Generator<void, boolean> {
  const problem = designProblem(question);
  const posed = { problem, oracle: remembering(heatModelOracle(question), purse) };
  const core = [...problem.joints.keys()].filter((j) => conflict?.joints.includes(problem.joints[j]!.id));
  if (core.length > 0 && core.length < problem.joints.length && !(yield* canBeMade(posed, purse, core))) return false;
  return (yield* canBeMade(posed, purse)) ?? false;
}
