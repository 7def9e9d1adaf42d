import { BENCH_FENCES } from './bench-fences.ts';
import { TRADE_FENCES } from './trade-fences.ts';

export type { Fence } from './fence.ts';

/**
 * The fences of every number that has fixed ones, by thing and by the field's name in JSON.
 *
 * Money is in minor units of the currency; a price fence written for a currency of two decimals holds, minor unit for minor
 * unit, for all. Fences that hang on today, on history or on another record (due dates, medians, weights against the
 * computed, lot contents, months of use, balances) are not here: whoever has the dates and the history checks them.
 */
export const FENCES = { ...BENCH_FENCES, ...TRADE_FENCES } as const;
