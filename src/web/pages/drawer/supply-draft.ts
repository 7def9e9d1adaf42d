import type { BodyOf, ReplyOf } from '../../api/reply.ts';
import { inField, numberOf } from '../../units/typed-number.ts';

export type Supply = ReplyOf<'/api/v1/supplies/{id}'>;
type NewSupply = BodyOf<'/api/v1/supplies', 'post'>;

export const SUPPLY_KINDS = ['flux', 'pickle_salt', 'gas', 'finding', 'stone', 'other'] as const;
export type SupplyKind = (typeof SUPPLY_KINDS)[number];
export const BY_WEIGHT: ReadonlySet<SupplyKind> = new Set<SupplyKind>(['flux', 'pickle_salt', 'gas']);

/** A supply while it is typed: priced by the pack, as suppliers do. */
export interface SupplyDraft {
  name: string;
  kind: SupplyKind;
  unit: 'g' | 'piece';
  pack?: number | undefined;
  orderPoint?: number | undefined;
  packPrice: string;
  supplier: string;
  safetySheet: string;
  active: boolean;
}

export const EMPTY_SUPPLY: SupplyDraft = {
  name: '',
  kind: 'flux',
  unit: 'g',
  packPrice: '',
  supplier: '',
  safetySheet: '',
  active: true,
};

/** A supply as it stands in the fields. */
export function draftOf({ name, kind, unit, pack, orderPoint, price, supplier, safetySheet, active }: Supply, locale: string) {
  return {
    name,
    kind,
    unit,
    pack,
    orderPoint: orderPoint ?? undefined,
    packPrice: typeof price === 'string' ? inField(String(Number((Number(price) * pack).toFixed(4))), locale) : '',
    supplier: supplier ?? '',
    safetySheet: safetySheet ?? '',
    active,
  } satisfies SupplyDraft;
}

export function supplyOf(draft: SupplyDraft): NewSupply {
  const { name, kind, unit, pack, orderPoint } = draft;
  return { name, kind, unit, ...(pack !== undefined && { pack }), orderPoint: orderPoint ?? null, ...textsOf(draft) };
}

/** What of it can be changed later. */
export function changeableOf(draft: SupplyDraft) {
  const { name, pack, orderPoint, active } = draft;
  return { name, pack: pack as number, orderPoint: orderPoint ?? null, active, ...textsOf(draft) };
}

/** What one gram or piece comes to of what was paid for some; what is no number goes as it was typed. */
export function unitPriceOf(typed: string, quantity: number | undefined): string | undefined {
  const paid = numberOf(typed);
  if (typeof paid !== 'number') return paid;
  return String(Number((paid / (quantity ?? 1)).toFixed(6)));
}

function textsOf({ packPrice, pack, supplier, safetySheet }: SupplyDraft) {
  return {
    price: unitPriceOf(packPrice, pack) ?? null,
    supplier: supplier.trim() || null,
    safetySheet: safetySheet.trim() || null,
  };
}
