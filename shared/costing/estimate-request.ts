/** What recipe 1 is asked, and what it answers. A decimal string is money a unit; a number is physics. */

import type { Part } from '../design/design.ts';
import type { PlacedSolder, SolderedJoint } from './solder-use.ts';

/** "46.00" a troy ounce: { amount: '46.00', per: 'ozt' }. */
export interface UnitPrice {
  amount: string;
  per: 'g' | 'dwt' | 'ozt';
}

/** A metal as it is bought. A price of 0 costs nothing; its scrap goes back uncredited. */
export interface PricedMetal {
  id: string;
  densityGPerCm3: number;
  fineness: number;
  price: UnitPrice;
  /** The client's own, at a price of 0: its grams are followed, and its handling is charged as a line of its own. */
  clientsOwn?: { handlingCharge: string };
}

export interface PricedSolder extends PlacedSolder {
  densityGPerCm3: number;
  price: UnitPrice;
  /** For the fineness of the finished piece. */
  silverFraction?: number;
}

/** One firing: what is in the fire, and how hot it gets. */
export interface PricedHeat {
  joints: readonly string[];
  parts: readonly string[];
  peakC: number;
}

export interface FluxUse {
  gPerCm2: number;
  /** Share of borax in the flux, by mass: it uses up pickle. */
  boraxFraction: number;
  pricePerG: string;
}

export type Acid = 'bisulphate' | 'citric' | 'sulphuric';

export interface PickleUse {
  acid: Acid;
  volumeL: number;
  strengthGPerL: number;
  /** Thickness of the copper oxide taken off in each heat. */
  oxideUm: number;
  dragOutMlPerCm2: number;
  /** Copper at which the bath is spent. */
  copperLimitGPerL: number;
  /** Share of the acid that can be used. */
  usableAcidFraction: number;
  pricePerG: string;
  disposalPerBath: string;
}

export type Fuel = 'propane' | 'butane' | 'acetylene' | 'methane' | 'hydrogen';

export interface GasUse {
  fuel: Fuel;
  powerW: number;
  /** Share of the flame's heat that ends in the metal. */
  efficiency: number;
  /** Seconds of flame a heat takes whatever its mass. */
  fixedS: number;
  specificHeatJPerGK: number;
  pricePerG: string;
  /** For a torch that burns bought oxygen; absent: it burns air. */
  oxygenPricePerG?: string;
}

export interface LabourLine {
  operation: string;
  role: string;
  minutes: number;
  /** Learned from earlier pieces. 1 when absent. */
  factor?: number;
  /** Done once, however many pieces there are. */
  setupMinutes?: number;
  /** A run of like pieces, of which minutes is the first: each doubling takes this share of the time a piece, 0.85 when absent. */
  run?: { pieces: number; learningFraction?: number };
}

/** What a packet for assay and marking costs, and for how many articles. */
export interface PacketCost {
  fee: string;
  post: string;
  articles: number;
  perArticle?: string;
  partMarks?: string;
}

/** A stone, finding or hallmark: at cost and its own handling. A hallmark may be its share of a packet. */
export type PassThrough = { id: string; kind: string; handlingFraction: number } & (
  { cost: string; packet?: never } | { packet: PacketCost; cost?: never }
);

export type TaxMethod = 'per_line' | 'on_total' | 'gross_rounded_up';

export interface EstimatePolicy {
  waste: { offcutFraction: number; filingsFraction: number; unrecoveredFraction: number };
  finePricePerG: string;
  /** Absent or null: the studio keeps its scrap. */
  scrapCredit?: {
    offcutKeptFraction: number;
    offcutPayFraction: number;
    filingsKeptFraction: number;
    filingsPayFraction: number;
  } | null;
  ratesPerHour: Readonly<Record<string, string>>;
  overheadPerBenchHour: string;
  consumablesPerBenchHour: string;
  contingencyFraction: number;
  /** Exactly one: the margin is a share of the price, the markup a share of the cost. */
  profit: { marginFraction: number } | { markupFraction: number };
  discountFraction?: number;
  /** roundUpToMinor: what a rounded-up gross is a multiple of; one whole unit of the currency when absent. */
  tax: { rateFraction: number; method: TaxMethod; roundUpToMinor?: number };
  depositFraction?: number;
}

export interface EstimateRequest {
  /** ISO 4217. */
  currency: string;
  metals: readonly PricedMetal[];
  solders: readonly PricedSolder[];
  design: {
    parts: readonly (Pick<Part, 'id' | 'form' | 'count'> & { metal: string })[];
    joints: readonly SolderedJoint[];
  };
  heats: readonly PricedHeat[];
  /** Each of these three: absent, and it costs nothing and has no line. */
  flux?: FluxUse;
  pickle?: PickleUse;
  gas?: GasUse;
  labour: readonly LabourLine[];
  passThrough?: readonly PassThrough[];
  policy: EstimatePolicy;
}

export type LineGroup = 'metal' | 'scrap_credit' | 'solder' | 'flux' | 'pickle' | 'gas' | 'labour' | 'overhead' | 'consumables';

export interface EstimateLine {
  group: LineGroup;
  label: string;
  amountMinor: number;
}

export type SoldKind = 'making' | 'pass_through' | 'handling' | 'discount' | 'rounding';

/** What the client is shown and charged: these lines add up to the net and, where tax is by line, to the tax. */
export interface SoldLine {
  kind: SoldKind;
  label: string;
  netMinor: number;
  /** Where tax is by line; null where it is on the whole. */
  taxMinor: number | null;
}

/** One number of the working: money as a decimal string of the currency, anything else as a number. */
export interface EstimateStep {
  key: string;
  value: number | string;
  unit: 'money' | 'money/g' | 'mm3' | 'cm2' | 'g' | 's' | 'min' | '1';
}

export interface EstimateTotals {
  baseMinor: number;
  contingencyMinor: number;
  makingCostMinor: number;
  makingPriceMinor: number;
  netBeforeDiscountMinor: number;
  discountMinor: number;
  netMinor: number;
  taxMinor: number;
  grossMinor: number;
  depositMinor: number;
  balanceMinor: number;
  profitMinor: number;
}

export interface Estimate {
  /** A recipe never changes: recomputed with its number, an old quote has the same amounts for ever. */
  recipe: 1;
  currency: string;
  lines: EstimateLine[];
  sold: SoldLine[];
  totals: EstimateTotals;
  steps: EstimateStep[];
}
