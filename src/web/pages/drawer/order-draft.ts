import type { BodyOf, ReplyOf } from '../../api/reply.ts';
import type { MassUnit } from '../../units/mass-unit.ts';
import { decimalOf, inField } from '../../units/typed-number.ts';

export type Order = ReplyOf<'/api/v1/supplier-orders/{id}'>;
export type NewLine = BodyOf<'/api/v1/supplier-orders', 'post'>['lines'][number];

/** One line while it is typed. */
export interface LineDraft {
  /** Which product, with whether it is solder or metal before it: "solder <id>". */
  product: string;
  quantityG?: number | undefined;
  amount: string;
  per: MassUnit;
}

/** A product that can be ordered. */
export interface Orderable {
  key: string;
  name: string;
  packG: number;
  price?: { amount: string; per: MassUnit } | undefined;
}

export function lineDraftsOf({ lines }: Order, locale: string): LineDraft[] {
  return lines.map(({ productId, metalProductId, orderedG, price }) => ({
    product: productId === null ? `metal ${metalProductId}` : `solder ${productId}`,
    quantityG: orderedG,
    amount: price ? inField(price.amount, locale) : '',
    per: price?.per ?? 'g',
  }));
}

export function newLineOf({ key, packG, price }: Orderable, locale: string): LineDraft {
  return { product: key, quantityG: packG, amount: price ? inField(price.amount, locale) : '', per: price?.per ?? 'g' };
}

/** What is sent; a line without a price goes at that of its product. */
export function linesOf(drafts: readonly LineDraft[]): NewLine[] {
  return drafts.map(({ product, quantityG, amount, per }) => {
    const [kind, id] = product.split(' ');
    return {
      ...(kind === 'metal' ? { metalProductId: id! } : { productId: id! }),
      quantityG: quantityG as number,
      ...(amount.trim() !== '' && { price: { amount: decimalOf(amount), per } }),
    };
  });
}
