import { Decimal } from 'decimal.js';
import { estimate } from '../../../shared/costing/estimate.ts';
import type { Estimate, EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import { marginOf, markupOf } from '../../../shared/costing/profit-shares.ts';
import type { Db } from '../../platform/db/client.ts';
import type { Confirmation } from '../../platform/db/json-columns.ts';
import { fenceErrors } from '../../platform/http/fences.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { fieldErrors } from '../../platform/http/validate.ts';
import { EstimateRequestSchema } from '../calculations/index.ts';
import type { PieceRow } from '../pieces/index.ts';
import { buildRequest, missingPrices, type Asked, type DraftRequest } from './estimate-request.ts';
import { isRecord } from '../../platform/merge-patch.ts';
import { mergeOverrides, pointByName } from './merge-overrides.ts';

export type Overrides = Readonly<Record<string, unknown>>;

export interface Priced {
  request: EstimateRequest;
  answer: Estimate;
  /** The fine price was typed for this estimate, not taken from the settings. */
  finePriceTyped: boolean;
}

/**
 * Prices pieces from the book, with every number that was given by hand in place of the book's.
 *
 * @throws {Problem} condition-not-met naming each design, plan and price that is missing; invalid-fields for overrides
 *   that cannot be used, at their pointers under /overrides
 */
export function pricePieces(
  db: Db,
  pieces: readonly PieceRow[],
  { confirmed, ...asked }: Asked & { confirmed: Confirmation | null },
): Priced {
  return priceRequest(buildRequest(db, pieces, asked), asked.overrides, confirmed);
}

/** The request that the book makes now, with what was typed for it; nothing is checked or computed. */
export function requestNow(db: Db, pieces: readonly PieceRow[], asked: Asked): DraftRequest {
  return withOverrides(buildRequest(db, pieces, asked), asked.overrides) as DraftRequest;
}

/** Prices a request with numbers put in by hand, which alone are held to shape and fences. */
export function priceRequest(draft: DraftRequest, overrides: Overrides, confirmed: Confirmation | null): Priced {
  const merged = withOverrides(draft, overrides);
  const missing = missingPrices(merged);
  if (missing.length > 0)
    throw new Problem(
      'condition-not-met',
      `Cannot price this: there is no price for ${missing.join(', ')}. Type it in the settings, at the product, or in the overrides`,
      { missing },
    );
  if (Object.keys(overrides).length > 0) holdFields(pointByName(overrideErrors(merged, draft), merged, overrides), confirmed);
  const request = merged as EstimateRequest;
  return {
    request,
    answer: estimate(request),
    finePriceTyped: request.policy.finePricePerG !== draft.policy.finePricePerG,
  };
}

function withOverrides(draft: DraftRequest, overrides: Overrides): unknown {
  const merged = mergeOverrides(draft, overrides);
  const { policy } = overrides;
  // Margin and markup exclude each other, so a new one takes the place of the old.
  if (isRecord(policy) && isRecord(policy['profit']) && isRecord(merged))
    return { ...merged, policy: { ...(merged['policy'] as object), profit: policy['profit'] } };
  return merged;
}

/** What was put in by hand is held to shape and fences; what came from the book stands. */
function overrideErrors(merged: unknown, draft: DraftRequest): FieldError[] {
  const parsed = EstimateRequestSchema.safeParse(merged, { reportInput: true });
  const wrong = parsed.success
    ? []
    : parsed.error.issues
        .filter(({ path }) => isByHand(merged, draft, path))
        .flatMap((issue) => fieldErrors(issue, '/overrides/'));
  const outside = fenceErrors(EstimateRequestSchema, merged, draft, '/overrides');
  if (wrong.length > 0) return [...wrong, ...outside];
  return [...outside, ...finePriceErrors(merged as EstimateRequest, draft), ...minutesErrors(merged as EstimateRequest, draft)];
}

/** Whether what is wrong was put in by hand; a field that is missing was, if what it is missing from was. */
function isByHand(merged: unknown, draft: DraftRequest, path: readonly PropertyKey[]): boolean {
  const isMissing = path.length > 0 && at(merged, path) === undefined;
  const where = isMissing ? path.slice(0, -1) : path;
  return JSON.stringify(at(merged, where)) !== JSON.stringify(at(draft, where));
}

function at(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((inner, key) => (inner as Record<PropertyKey, unknown> | undefined)?.[key], value);
}

/** Against the last price that was typed: asked about from a fifth up or down, refused from a hundredfold. */
function finePriceErrors({ policy }: EstimateRequest, draft: DraftRequest): FieldError[] {
  const [given, last] = [policy.finePricePerG, draft.policy.finePricePerG];
  const pointer = '/overrides/policy/finePricePerG';
  if (!new Decimal(given).gt(0)) return [{ pointer, detail: 'The fine price must be above 0.', given }];
  if (last === undefined || given === last || new Decimal(last).isZero()) return [];
  const ratio = new Decimal(given).div(last);
  if (ratio.gt(100)) return [{ pointer, detail: `That is more than a hundred times the last price, ${last}.`, given }];
  if (ratio.minus(1).abs().lte(0.2)) return [];
  return [{ pointer, detail: `The last price was ${last}: has it moved by more than a fifth?`, given, confirmable: true }];
}

function minutesErrors({ labour }: EstimateRequest, draft: DraftRequest): FieldError[] {
  return labour.flatMap(({ operation, minutes }, index) => {
    const usual = draft.labour.find((line) => line.operation === operation)?.minutes;
    if (usual === undefined || (minutes >= 0.3 * usual && minutes <= 3 * usual)) return [];
    return [
      {
        pointer: `/overrides/labour/${index}/minutes`,
        detail: `The usual for ${operation} is ${usual} min; you wrote ${minutes}.`,
        given: minutes,
        unit: 'min',
        confirmable: true,
      },
    ];
  });
}

/**
 * What stays of the price, both ways: a share of the price, and a share of the cost; null where there is nothing to divide by. Of
 * all that is sold, and as it was typed for the making.
 */
export function profitBothWays({ totals: { profitMinor, netMinor } }: Pick<Estimate, 'totals'>, { policy }: EstimateRequest) {
  const share = (of: number) => (of === 0 ? null : new Decimal(profitMinor).div(of).toDecimalPlaces(4).toNumber());
  const { profit } = policy;
  return {
    marginFraction: share(netMinor),
    markupFraction: share(netMinor - profitMinor),
    ofMaking:
      'marginFraction' in profit
        ? { marginFraction: profit.marginFraction, markupFraction: rounded(markupOf(profit.marginFraction)) }
        : { marginFraction: rounded(marginOf(profit.markupFraction)), markupFraction: profit.markupFraction },
  };
}

function rounded(share: number): number {
  return new Decimal(share).toDecimalPlaces(4).toNumber();
}
