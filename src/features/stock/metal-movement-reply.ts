import type { Db } from '../../platform/db/client.ts';
import { toG } from './grams.ts';
import { findMetalReversalOf, type MetalMovementRow } from './metal-lots.store.ts';

export function showMetalMovement(db: Db, { at, onHandTenthMg, ...row }: MetalMovementRow) {
  return { ...row, onHandG: toG(onHandTenthMg), occurredAt: at, reversedById: findMetalReversalOf(db, row.id)?.id ?? null };
}
