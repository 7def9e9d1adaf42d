import type { CommissionRow } from './commissions.store.ts';

const OVER = new Set(['turned_down', 'handed_over', 'settled', 'called_off']);

/** Nothing about it is changed any more; a return is a new commission. */
export function isOver({ state }: Pick<CommissionRow, 'state'>): boolean {
  return OVER.has(state);
}
