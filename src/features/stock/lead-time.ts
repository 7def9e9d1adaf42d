import type { SupplierRow } from './suppliers.store.ts';

/** Of a supplier that is not noted: common practice, no source. */
export const USUAL_LEAD_WEEKS = 2;
const WORKING_DAYS_A_WEEK = 5;

/** Weeks from order to delivery of metal: those of its supplier. */
export function metalLeadWeeks(supplier: SupplierRow | undefined): number {
  return supplier ? Math.ceil(supplier.leadWorkingDays / WORKING_DAYS_A_WEEK) : USUAL_LEAD_WEEKS;
}
