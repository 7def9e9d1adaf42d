import { SHARE, THICKNESS } from './bench-fences.ts';
import type { Fence } from './fence.ts';

/** What goes to and fro between studio, client and supplier. */
export const TRADE_FENCES = {
  client: {
    ringSizeMm: {
      name: 'The ring size, the inside circumference,',
      unit: 'mm',
      refuseBelow: 35,
      askBelow: 41,
      askAbove: 76,
      refuseAbove: 90,
      mayBe: ['across'],
    },
  },
  commission: {
    quantity: { name: 'The quantity', refuseBelow: 1, askBelow: 1, askAbove: 50, refuseAbove: 500 },
    budgetMinor: { name: 'The budget', unit: 'minor units', refuseBelow: 0, refuseAbove: 100_000_000 },
  },
  client_property: {
    weightG: { name: 'The weight', unit: 'g', refuseBelow: 0.01, askAbove: 1000, refuseAbove: 5000, mayBe: ['dwt', 'ozt', 'mg'] },
  },
  lot: {
    quantityG: {
      name: 'The quantity',
      unit: 'g',
      refuseBelow: 0.01,
      askBelow: 0.5,
      askAbove: 500,
      refuseAbove: 5000,
      mayBe: ['dwt', 'ozt'],
    },
    unitCostMinorPerG: {
      name: 'The cost',
      unit: 'minor units a gram',
      refuseBelow: 0,
      refuseAbove: 50_000,
      mayBe: ['price_per_ozt', 'price_per_dwt'],
    },
  },
  stock_movement: {
    quantityG: { name: 'The quantity', unit: 'g', refuseBelow: 0.0001 },
  },
  quote_version: {
    marginFraction: {
      name: 'The margin, a share of the price,',
      refuseBelow: -0.5,
      askBelow: 0.2,
      askAbove: 0.75,
      refuseAbove: 0.95,
      mayBe: ['percent', 'markup'],
    },
    markupFraction: {
      name: 'The markup, a share of the cost,',
      refuseBelow: -0.5,
      askBelow: 0.25,
      askAbove: 3,
      refuseAbove: 20,
      mayBe: ['percent'],
    },
    contingencyFraction: {
      name: 'The contingency',
      refuseBelow: 0,
      askBelow: 0,
      askAbove: 0.25,
      refuseAbove: 1,
      mayBe: ['percent'],
    },
    discountFraction: { name: 'The discount', refuseBelow: 0, askBelow: 0, askAbove: 0.2, refuseAbove: 0.9, mayBe: ['percent'] },
    taxRateFraction: { name: 'The tax rate', refuseBelow: 0, askAbove: 0.3, refuseAbove: 1, mayBe: ['percent'] },
    depositFraction: { name: 'The deposit', refuseBelow: 0, askBelow: 0.2, askAbove: 0.7, refuseAbove: 1, mayBe: ['percent'] },
    finePriceMinorPerG: { name: 'The price of fine metal', unit: 'minor units a gram', refuseBelow: 0.0001 },
    minutes: { name: 'The minutes', unit: 'min', refuseBelow: 0, refuseAbove: 6000 },
  },
  payment: {
    amountMinor: { name: 'The amount', unit: 'minor units', refuseBelow: 1 },
  },
  hallmark_packet: {
    feeMinor: { name: 'The fee', unit: 'minor units', refuseBelow: 0 },
    postMinor: { name: 'The post', unit: 'minor units', refuseBelow: 0 },
    articles: { name: 'The number of articles', refuseBelow: 1 },
  },
  metal_product: {
    priceMinorPerG: {
      name: 'The price',
      unit: 'minor units a gram',
      refuseBelow: 0,
      refuseAbove: 50_000,
      mayBe: ['price_per_ozt', 'price_per_dwt'],
    },
    sizeMm: { name: 'The size', ...THICKNESS, refuseAbove: 100 },
  },
  supplier: {
    minimumMinor: { name: 'The minimum order', unit: 'minor units', refuseBelow: 0, askAbove: 50_000, refuseAbove: 10_000_000 },
    postMinor: { name: 'The post', unit: 'minor units', refuseBelow: 0, askAbove: 5000, refuseAbove: 100_000 },
    leadWorkingDays: { name: 'The lead time', unit: 'working days', refuseBelow: 0, askBelow: 1, askAbove: 30, refuseAbove: 180 },
  },
  person: {
    rateMinorPerHour: {
      name: 'The rate',
      unit: 'minor units an hour',
      refuseBelow: 0,
      askBelow: 800,
      askAbove: 12_000,
      refuseAbove: 100_000,
    },
    benchMinutesPerDay: {
      name: 'The bench minutes of a day',
      unit: 'min',
      refuseBelow: 0,
      askBelow: 60,
      askAbove: 420,
      refuseAbove: 900,
      whenTooHigh: 'That leaves none for the door and the phone: usual is 330.',
    },
  },
  place_rules: {
    markOverG: { name: 'The weight over which a mark is needed', unit: 'g', refuseBelow: 0 },
    leastSolderFinenessFraction: { name: 'The least fineness of solder', refuseBelow: 0, refuseAbove: 1, mayBe: SHARE },
    addedMetalG: { name: 'The limit of added metal', unit: 'g', refuseBelow: 0 },
    addedMetalFraction: { name: 'The limit of added metal', refuseBelow: 0, refuseAbove: 1, mayBe: ['percent'] },
    taxRateFraction: { name: 'The tax rate', refuseBelow: 0, askAbove: 0.3, refuseAbove: 1, mayBe: ['percent'] },
    keepYears: { name: 'The years of keeping', unit: 'years', refuseBelow: 0 },
  },
} as const satisfies Record<string, Record<string, Fence>>;
