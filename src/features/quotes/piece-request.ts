import { operationsFromPlan } from '../../../shared/costing/operations-from-plan.ts';
import type {
  EstimateRequest,
  LabourLine,
  PricedHeat,
  PricedMetal,
  PricedSolder,
} from '../../../shared/costing/estimate-request.ts';
import type { Design, Joint, Part } from '../../../shared/design/design.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import { endsOf } from '../../../shared/design/joint-ends.ts';
import { getMetal } from '../../../shared/materials/metal.ts';
import { onceEach } from '../../../shared/once-each.ts';
import type { HeatCheck } from '../../../shared/sequencing/plan-check-answer.ts';
import type { Db } from '../../platform/db/client.ts';
import { factorInUse } from '../learning/index.ts';
import type { DrawnPiece, PieceRow, PlanForPricing } from '../pieces/index.ts';
import { learnedTrim, type Settings } from '../settings/index.ts';
import { findProductByCode, type SolderProductRow } from '../stock/index.ts';

/** What one piece adds to a request. A price that nobody typed is absent, and told before anything is computed. */
export interface PieceRequest {
  metals: readonly (Omit<PricedMetal, 'price'> & Partial<Pick<PricedMetal, 'price'>>)[];
  solders: readonly (Omit<PricedSolder, 'price'> & Partial<Pick<PricedSolder, 'price'>>)[];
  design: EstimateRequest['design'];
  heats: PricedHeat[];
  labour: LabourLine[];
}

/** What the book says of operations and solders, each looked up once for however many pieces ask. */
interface Book {
  settings: Settings;
  factorOf: (operation: string) => number;
  productOf: (code: string) => SolderProductRow | undefined;
}

export function bookOf(db: Db, settings: Settings): Book {
  return {
    settings,
    factorOf: onceEach((operation) => factorInUse(db, operation)?.factor ?? settings.newStudioFactor),
    productOf: onceEach((code) => findProductByCode(db, code)),
  };
}

interface Asked {
  book: Book;
  /** Which members somebody gives by hand, so that the book needs not have them. */
  byHand: { design: boolean; heats: boolean };
}

/** From the design and plan of a piece, or what stands in the way, in words. */
export function pieceRequest(
  piece: PieceRow,
  drawn: DrawnPiece | undefined,
  { book, byHand }: Asked,
): PieceRequest | { missing: string[] } {
  const { settings } = book;
  if (!drawn) return byHand.design ? EMPTY : { missing: [`${piece.number} has no design`] };
  const { design, plan } = drawn;
  const expanded = expandDesign(design).design;
  const missing = byHand.heats ? [] : planGaps(piece, expanded, plan);
  if (missing.length > 0) return { missing };
  const solderOf = soldersByJoint(plan);
  const joints = expanded.joints
    .filter((joint) => joint.made === undefined)
    .map((joint) => withSolder(joint, solderOf.get(joint.id), settings));
  const here = partsThatAreHere(expanded);
  return {
    metals: uniqueById(expanded.parts.map((part) => priced(part, here.has(part.id), settings))),
    solders: uniqueById(joints.flatMap(({ solder }) => (solder === undefined ? [] : [asProduct(book, solder, plan)]))),
    design: {
      parts: expanded.parts.map((part) => ({ id: part.id, metal: metalId(part, here.has(part.id)), form: part.form })),
      joints,
    },
    heats: (plan?.check?.heats ?? []).filter(({ inFire }) => inFire.length > 0).map(asPriced),
    labour: operationsFromPlan({ design, plan: plan?.body ?? { heats: [] } }).map((line) => ({
      ...line,
      factor: book.factorOf(line.operation),
    })),
  };
}

/** As it is soldered, with the trim learned of that solder where the joint says none of its own. */
function withSolder(joint: Joint, solder: string | undefined, { solderTrims }: Settings): Joint {
  if (solder === undefined) return joint;
  const trimFraction = learnedTrim(solderTrims, solder);
  return { ...(trimFraction === undefined ? {} : { trimFraction }), ...joint, solder };
}

const EMPTY: PieceRequest = { metals: [], solders: [], design: { parts: [], joints: [] }, heats: [], labour: [] };

function planGaps({ number }: PieceRow, { joints }: Design, plan: PlanForPricing | undefined): string[] {
  const open = joints.filter(({ made }) => made === undefined).map(({ id }) => id);
  if (open.length === 0) return [];
  if (!plan) return [`${number} has no plan`];
  if (!plan.check) return [`the plan of ${number}, version ${plan.number}, was not checked`];
  const covered = soldersByJoint(plan);
  const left = open.filter((id) => !covered.has(id));
  return left.length === 0 ? [] : [`the plan of ${number}, version ${plan.number}, does not make ${left.join(', ')}`];
}

/** By the ids of single joints, as the check names them. */
function soldersByJoint(plan: PlanForPricing | undefined): Map<string, string> {
  const made = plan?.check?.heats.flatMap(({ joints, solder }) =>
    solder === null ? [] : joints.map((id) => [id, solder] as const),
  );
  return new Map(made);
}

/** The target is brought to its flow temperature; a heat that makes nothing is as hot as its hottest part. */
function asPriced({ joints, inFire, flowC, parts }: HeatCheck): PricedHeat {
  return { joints, parts: inFire, peakC: flowC ?? Math.max(...parts.map(({ peakC }) => peakC)) };
}

/** Parts of a joint that exists came with the piece: nobody buys their metal again. */
function partsThatAreHere({ joints }: Design): Set<string> {
  return new Set(joints.filter(({ made }) => made !== undefined).flatMap(endsOf));
}

function metalId({ id, metal }: Part, isHere: boolean): string {
  const name = typeof metal === 'string' ? metal : (metal.code ?? metal.name ?? `own metal of ${id}`);
  return isHere ? `${name}, there already` : name;
}

function priced(part: Part, isHere: boolean, { metalPrices }: Settings): PieceRequest['metals'][number] {
  const { densityGPerCm3, finenessFraction } = getMetal(part.metal);
  const id = metalId(part, false);
  const bought = Object.hasOwn(metalPrices, id) ? metalPrices[id] : undefined;
  const price = isHere ? ({ amount: '0', per: 'g' } as const) : bought;
  return { id: metalId(part, isHere), densityGPerCm3, fineness: finenessFraction, ...(price ? { price } : {}) };
}

/** A solder as the product it is; one that is in no drawer of ours has what its plan says, and no price. */
function asProduct({ productOf }: Book, code: string, plan: PlanForPricing | undefined): PieceRequest['solders'][number] {
  const product = productOf(code);
  if (product) {
    const { densityGPerCm3, smallestPieceG, metalFraction, silverFraction, pricePerG } = product;
    return {
      id: code,
      densityGPerCm3,
      smallestPieceG,
      // Of anything but paste it is 1, which goes without saying.
      ...(metalFraction < 1 ? { metalFraction } : {}),
      ...(silverFraction === null ? {} : { silverFraction }),
      price: { amount: pricePerG, per: 'g' },
    };
  }
  const planned = plan?.solders.find(({ id }) => id === code);
  return {
    id: code,
    densityGPerCm3: planned?.densityGPerCm3 ?? USUAL_DENSITY_G_PER_CM3,
    smallestPieceG: planned?.smallestPieceG ?? 0,
  };
}

/** A hard solder of 75 % silver, 22 % copper, 3 % zinc by the rule of mixtures. */
const USUAL_DENSITY_G_PER_CM3 = 9.97;

/** One of each id, the last that was given. */
export function uniqueById<Thing extends { id: string }>(things: Thing[]): Thing[] {
  return [...new Map(things.map((thing) => [thing.id, thing])).values()];
}
