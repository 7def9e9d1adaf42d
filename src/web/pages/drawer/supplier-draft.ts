import type { ItemOf } from '../../api/reply.ts';
import { moneyInField, moneyTyped } from '../../units/typed-money.ts';
import { numberOf } from '../../units/typed-number.ts';

export type Supplier = ItemOf<'/api/v1/suppliers'>;

/** A supplier while it is typed. */
export interface SupplierDraft {
  name: string;
  leadDays: string;
  minimum: string;
  post: string;
  note: string;
  active: boolean;
}

export const EMPTY_SUPPLIER: SupplierDraft = { name: '', leadDays: '', minimum: '', post: '', note: '', active: true };

export function supplierDraftOf({ name, leadWorkingDays, minimum, post, note, active }: Supplier, locale: string): SupplierDraft {
  return {
    name,
    leadDays: String(leadWorkingDays),
    minimum: moneyInField(locale, minimum),
    post: moneyInField(locale, post),
    note: note ?? '',
    active,
  };
}

/** What is sent of it; an empty amount is none. */
export function supplierOf({ name, leadDays, minimum, post, note }: SupplierDraft, currency: string) {
  return {
    name,
    leadWorkingDays: numberOf(leadDays) as number,
    minimum: moneyTyped(minimum.trim() || '0', currency),
    post: moneyTyped(post.trim() || '0', currency),
    note: note.trim() || null,
  };
}
