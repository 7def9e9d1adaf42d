import type { BodyOf } from '../../api/reply.ts';
import type { MassUnit } from '../../units/mass-unit.ts';
import { decimalOf } from '../../units/typed-number.ts';

type NewMetal = BodyOf<'/api/v1/metal-products', 'post'>;

export const METAL_FORMS = ['sheet', 'strip', 'round_wire', 'square_wire', 'half_round_wire', 'tube', 'grain'] as const;
export type MetalForm = (typeof METAL_FORMS)[number];

type Size = 'thicknessMm' | 'widthMm' | 'diameterMm' | 'sideMm' | 'heightMm' | 'outsideDiameterMm' | 'insideDiameterMm';

/** What each form is measured by. */
export const SIZES: Readonly<Record<MetalForm, readonly Size[]>> = {
  sheet: ['thicknessMm'],
  strip: ['widthMm', 'thicknessMm'],
  round_wire: ['diameterMm'],
  square_wire: ['sideMm'],
  half_round_wire: ['widthMm', 'heightMm'],
  tube: ['outsideDiameterMm', 'insideDiameterMm'],
  grain: [],
};

/** A metal product while it is typed. */
export interface MetalDraft {
  name: string;
  metal: string;
  form: MetalForm;
  sizes: Partial<Record<Size, number | undefined>>;
  /** What was typed, where it was in another unit. */
  entered: Partial<Record<Size, string | undefined>>;
  supplier: string;
  amount: string;
  per: MassUnit;
}

export const EMPTY_METAL: MetalDraft = {
  name: '',
  metal: 'sterling-925',
  form: 'sheet',
  sizes: {},
  entered: {},
  supplier: '',
  amount: '',
  per: 'g',
};

export function metalOf({ name, metal, form, sizes, entered, supplier, amount, per }: MetalDraft): NewMetal {
  const measured = SIZES[form];
  return {
    name,
    metal,
    form: { kind: form, ...Object.fromEntries(measured.map((size) => [size, sizes[size]])) } as NewMetal['form'],
    entered: Object.fromEntries(
      measured.flatMap((size) => (entered[size] === undefined ? [] : [[`/form/${size}`, entered[size]]])),
    ),
    supplier,
    price: { amount: decimalOf(amount), per },
  };
}
