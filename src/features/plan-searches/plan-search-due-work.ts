import type { Platform } from '../../platform/platform.ts';
import { dropEndedBefore } from './plan-searches.store.ts';

/** So long a search stays after its end. What a plan was made of is in the plan, and the journal keeps a line of each step. */
const KEPT_DAYS = 30;

/** Clears away searches that ended long ago: each holds the whole design and every plan it found. */
export function runDuePlanSearches({ db, clock }: Platform): void {
  dropEndedBefore(db, new Date(clock.now().getTime() - KEPT_DAYS * 86_400_000).toISOString());
}
