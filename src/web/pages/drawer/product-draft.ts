import type { BodyOf, ItemOf } from '../../api/reply.ts';
import type { MassUnit } from '../../units/mass-unit.ts';
import { decimalOf, inField, numberOf, shareOf } from '../../units/typed-number.ts';

type NewProduct = BodyOf<'/api/v1/solder-products', 'post'>;
export type SolderProduct = ItemOf<'/api/v1/solder-products'>;

export const SOLDER_FORMS = ['wire', 'sheet', 'pallion', 'paste', 'rod', 'powder'] as const;
export const STANDINGS = ['unknown', 'no', 'yes'] as const;

type Standing = (typeof STANDINGS)[number];

/** A solder product while it is typed; shares in per cent. */
export interface ProductDraft {
  name: string;
  code: string;
  gradeWord: string;
  form: (typeof SOLDER_FORMS)[number];
  solidusC?: number | undefined;
  liquidusC?: number | undefined;
  smallestPieceG?: number | undefined;
  packG?: number | undefined;
  /** What was typed, where it was in another unit. */
  entered: Partial<Record<'solidusC' | 'liquidusC' | 'smallestPieceG' | 'packG', string | undefined>>;
  silverPercent: string;
  metalPercent: string;
  density: string;
  cadmiumStanding: Standing;
  leadOrTinStanding: Standing;
  fluxFluoride: Standing;
  safetySheet: string;
  supplier: string;
  amount: string;
  per: MassUnit;
  leadWeeks: string;
}

export const EMPTY_PRODUCT: ProductDraft = {
  name: '',
  code: '',
  gradeWord: '',
  form: 'wire',
  entered: {},
  silverPercent: '',
  metalPercent: '',
  density: '',
  cadmiumStanding: 'unknown',
  leadOrTinStanding: 'unknown',
  fluxFluoride: 'unknown',
  safetySheet: '',
  supplier: '',
  amount: '',
  per: 'g',
  leadWeeks: '',
};

export function productOf(draft: ProductDraft): NewProduct {
  const { name, code, gradeWord, form, solidusC, liquidusC, smallestPieceG, packG, safetySheet, supplier } = draft;
  return {
    name,
    code,
    gradeWord,
    form,
    // What is missing is left out, and the server says so beside every other field it cannot use.
    solidusC: solidusC as number,
    liquidusC: liquidusC as number,
    smallestPieceG: smallestPieceG as number,
    packG: packG as number,
    silverFraction: shareOf(draft.silverPercent, 100) ?? null,
    densityGPerCm3: numberOf(draft.density) as number,
    cadmiumStanding: draft.cadmiumStanding,
    leadOrTinStanding: draft.leadOrTinStanding,
    safetySheet,
    supplier,
    price: { amount: decimalOf(draft.amount), per: draft.per },
    leadWeeks: numberOf(draft.leadWeeks) as number,
    ...(form === 'paste' && { metalFraction: shareOf(draft.metalPercent, 100), fluxFluoride: draft.fluxFluoride }),
  };
}

/** A solder of the book as it stands in the fields. */
export function productDraftOf(product: SolderProduct, locale: string): ProductDraft {
  const { silverFraction, metalFraction, densityGPerCm3, fluxFluoride, price, leadWeeks } = product;
  const { name, code, gradeWord, form, solidusC, liquidusC, smallestPieceG, packG, safetySheet, supplier } = product;
  const percent = (fraction: number) => inField(String(Number((fraction * 100).toPrecision(12))), locale);
  return {
    name,
    code,
    gradeWord,
    form,
    solidusC,
    liquidusC,
    smallestPieceG,
    packG,
    safetySheet,
    supplier,
    entered: {},
    silverPercent: silverFraction === null ? '' : percent(silverFraction),
    metalPercent: form === 'paste' ? percent(metalFraction) : '',
    density: inField(String(densityGPerCm3), locale),
    cadmiumStanding: product.cadmiumStanding,
    leadOrTinStanding: product.leadOrTinStanding,
    fluxFluoride: fluxFluoride ?? 'unknown',
    amount: price ? inField(price.amount, locale) : '',
    per: price?.per ?? 'g',
    leadWeeks: String(leadWeeks),
  };
}
