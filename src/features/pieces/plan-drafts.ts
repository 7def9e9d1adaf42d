import type { Plan } from '../../../shared/design/plan.ts';
import type { Solder } from '../../../shared/design/solder.ts';
import type { PlanSearchAnswer, PlanSearchOptions, PlanSearchRequest } from '../../../shared/sequencing/plan-search-request.ts';
import type { Db } from '../../platform/db/client.ts';
import type { BookBench } from '../../platform/db/json-columns.ts';
import { Problem } from '../../platform/http/problem.ts';
import { checkOrRefuse } from '../calculations/index.ts';
import { getSettings } from '../settings/index.ts';
import { benchFromBook, type AskedBench } from '../torches/index.ts';
import { getPiece } from './piece-reads.ts';
import { planBasis, soldersFor, type PlanBasis } from './plan-basis.ts';
import type { PlanRow } from './plans.store.ts';
import { expandPlan } from './true-state.ts';

/** What a plan for a piece is asked about: the piece as it truly is, the bench and the solders. */
export interface AskedOfPiece {
  pieceId: string;
  basis: PlanBasis;
  bench: BookBench;
  solders: Solder[];
}

/** A plan version that is not kept yet. */
export type Draft = Pick<
  PlanRow,
  'pieceId' | 'designId' | 'madeJoints' | 'bench' | 'solders' | 'origin' | 'body' | 'checkResult' | 'searchResult'
>;

const OVER = new Set(['given', 'scrapped']);

/** @throws {Problem} condition-not-met for a piece that is out of the house */
export function holdPlannable(db: Db, pieceId: string): void {
  const { number, state } = getPiece(db, pieceId);
  if (OVER.has(state)) throw new Problem('condition-not-met', `Cannot plan ${number}: it is ${state}`);
}

interface Asked {
  bench?: AskedBench | undefined;
  solders?: Solder[] | undefined;
}

/** Who asks, and when: the drawer is that of today. */
interface Asking {
  personId: string;
  now: Date;
}

/** A piece as it truly is, with bench and solders. */
export function askedOfPiece(db: Db, who: Asking, pieceId: string, asked: Asked): AskedOfPiece {
  holdPlannable(db, pieceId);
  const { bench, solders } = benchAndSolders(db, who, asked, pieceId);
  return { pieceId, basis: planBasis(db, pieceId, solders), bench, solders };
}

/**
 * The bench given or the studio's own, a torch of the book as this person has calibrated it; the solders given or those on offer.
 *
 * @throws {Problem} condition-not-met where there is no solder to plan with
 */
export function benchAndSolders(
  db: Db,
  { personId, now }: Asking,
  asked: Asked,
  pieceId?: string,
): Pick<AskedOfPiece, 'bench' | 'solders'> {
  const bench = benchFromBook(db, personId, asked.bench ?? getSettings(db).bench);
  const solders = asked.solders ?? soldersFor(db, now, pieceId);
  if (solders.length === 0)
    throw new Problem('condition-not-met', 'Cannot plan: there is no solder product free of cadmium and lead in the book');
  return { bench, solders };
}

/** @throws {Problem} condition-not-met when there is nothing left to plan */
export function searchOf({ basis: { state }, bench, solders }: AskedOfPiece, options: PlanSearchOptions): PlanSearchRequest {
  if (state.open.length === 0) throw new Problem('condition-not-met', 'Cannot look for a plan: every joint is made already');
  // Of an empty drawer nothing could be planned, and so nobody would learn what to buy.
  const isDrawerEmpty = solders.every(({ availableG }) => availableG === 0);
  return { design: state.design, solders: isDrawerEmpty ? withoutStock(solders) : solders, bench, options };
}

/** For a plan that is made by hand: what the drawer lacks for it is told beside it, and does not stop it. */
export function withoutStock(solders: readonly Solder[]): Solder[] {
  return solders.map(({ availableG: _availableG, ...solder }) => solder);
}

/** A plan by hand, as it would be kept. @throws {Problem} invalid-fields with every fault of its structure */
export async function checked({ basis, ...question }: AskedOfPiece, plan: Plan): Promise<Draft> {
  const { design, state } = basis;
  const { bench, solders } = question;
  const body = expandPlan(plan, design.body);
  const checkResult = await checkOrRefuse({ design: state.design, solders: withoutStock(solders), bench, plan: body });
  return { ...question, ...madeFrom(basis), origin: 'by_hand', body, checkResult, searchResult: null };
}

/**
 * What a search of the piece as it truly is found, as it would be kept.
 *
 * @throws {Problem} condition-not-met, with what would help, when it found no plan
 */
export function draftFound(
  made: Omit<Draft, 'origin' | 'body' | 'checkResult' | 'searchResult'>,
  answer: PlanSearchAnswer,
): Draft {
  const { plan, check: checkResult, ...searchResult } = answer;
  if (!plan) {
    const { outcome, conflict, relaxations, searched } = searchResult;
    const says = conflict?.says ?? 'allow more joints in a heat, more protections, or more work for the search';
    throw new Problem('condition-not-met', `No plan was found: ${says}`, { outcome, conflict, relaxations, searched });
  }
  // It is in the ids of single joints, as the true state is.
  return { ...made, origin: 'found', body: plan, checkResult, searchResult };
}

/** What a draft says it was made from. */
export const madeFrom = ({ design, state }: PlanBasis): Pick<Draft, 'designId' | 'madeJoints'> => ({
  designId: design.id,
  madeJoints: state.made,
});
