/** What the JSON columns hold, where no room of the engine owns the type. */

import type { Bench } from '../../../shared/design/plan.ts';
import type { Solder } from '../../../shared/design/solder.ts';
import type { LengthForm } from '../../../shared/stock/metal-length.ts';
import type { PlanSearchAnswer } from '../../../shared/sequencing/plan-search-request.ts';

export type Role = 'owner' | 'bench' | 'desk' | 'student';

/** The units a person reads and types; the book keeps one unit for each dimension. */
export interface ShownUnits {
  length: 'mm' | 'in' | 'gauge';
  temperature: 'C' | 'F';
  mass: 'g' | 'dwt' | 'ozt';
}

/** What a person answered to a question about an unusual value; kept in the journal. */
export interface Confirmation {
  pointers: string[];
  reason: string;
}

/** Something of the client's that was left with us. */
export interface ClientProperty {
  what: string;
  weightG: number;
  declaredValueMinor?: number;
}

/** The bench of a plan; a torch of the book by its id, beside what it was with its calibration then. */
export type BookBench = Bench & { torchId?: string };

/** A joint that exists when a plan begins: with the solder really in it, and whether it is in doubt. */
export interface MadeJoint {
  joint: string;
  solder: Solder | 'unknown';
  doubtful: boolean;
}

/** The paper that settles whether a solder, or a joint of unknown solder, holds cadmium; a bench test never does. */
export interface CadmiumDocument {
  kind: 'supplier_sheet' | 'laboratory_analysis';
  reference: string;
  datedOn: string;
  personId: string;
}

export type SolderForm = 'sheet' | 'wire' | 'paste' | 'pallion' | 'rod' | 'powder';

export type MovementKind =
  'receive' | 'use' | 'put_back' | 'scrap' | 'count_up' | 'count_down' | 'write_off' | 'hold' | 'free' | 'reverse';

/** What a search said about the plan it found; the plan and its check are kept beside it. */
export type SearchResult = Omit<PlanSearchAnswer, 'plan' | 'check'>;

/** The flux of a heat. Unknown counts as fluoride. */
export interface HeatFlux {
  name: string;
  fluoride: 'no' | 'yes' | 'unknown';
}

/** What was seen to before a heat was lit. */
export interface HeatReadiness {
  jointFitted: boolean;
  fluxOn: boolean;
  protectionsPlaced: boolean;
  /** Where a joint of unknown solder lay in the fire. */
  unknownSolder?: { tests: string; clientsYes: boolean };
  cautionsRead: string[];
  at: string;
}

/** Metal as it is bought: by the length, or as grain by the scale alone. */
export type MetalForm = LengthForm | { kind: 'grain' };

export type MetalMovementKind = 'receive' | 'issue' | 'put_back' | 'scrap' | 'count_up' | 'count_down' | 'write_off' | 'reverse';

/** A price as somebody typed it, with its unit. */
export interface UnitPriceTyped {
  amount: string;
  per: 'g' | 'dwt' | 'ozt';
}

/** What a refiner wrote of a jar, and what came of it. */
export interface ScrapSettlement {
  settledOn: string;
  meltLossFraction: number;
  assayFraction: number;
  payFraction: number;
  finePricePerG: string;
  feeFixed: string;
  feePerG: string;
  barG: number;
  fineG: number;
  paidMinor: number;
  feesMinor: number;
  creditMinor: number;
}
