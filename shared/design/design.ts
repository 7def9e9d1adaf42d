/** What a piece is made of: parts by shape and size, joints between them, and the rules the maker has set. */

import type { CadmiumStanding, Solder } from './solder.ts';

export type Form =
  | { kind: 'sheet'; lengthMm: number; widthMm: number; thicknessMm: number }
  | { kind: 'disc'; diameterMm: number; thicknessMm: number }
  | { kind: 'outline'; areaMm2: number; thicknessMm: number }
  | { kind: 'washer'; outsideDiameterMm: number; insideDiameterMm: number; thicknessMm: number }
  | { kind: 'band'; insideDiameterMm: number; heightMm: number; thicknessMm: number }
  | { kind: 'bar'; lengthMm: number; widthMm: number; thicknessMm: number }
  | { kind: 'round_wire'; lengthMm: number; diameterMm: number }
  | { kind: 'square_wire'; lengthMm: number; sideMm: number }
  | { kind: 'half_round_wire'; lengthMm: number; widthMm: number; heightMm: number }
  | { kind: 'tube'; lengthMm: number; outsideDiameterMm: number; insideDiameterMm: number }
  | { kind: 'wire_ring'; insideDiameterMm: number; diameterMm: number }
  | { kind: 'square_ring'; meanDiameterMm: number; sideMm: number }
  | { kind: 'cone'; smallDiameterMm: number; largeDiameterMm: number; slantMm: number; thicknessMm: number }
  | { kind: 'dome'; blankDiameterMm: number; thicknessMm: number }
  | { kind: 'ball'; diameterMm: number }
  | { kind: 'weighed'; massG: number; areaMm2: number };

export type FormKind = Form['kind'];

/** What a metal is in the main; where nobody says, it counts as unknown. */
export type MetalKind = 'silver' | 'gold' | 'platinum' | 'base';

/** A metal that is in no table: what the heat model and the scale need of it. */
export interface OwnMetal {
  /** Of the metal of the book that it was copied from. */
  code?: string;
  name?: string;
  kind?: MetalKind;
  densityGPerCm3: number;
  finenessFraction?: number;
  solidusC: number;
  liquidusC: number;
  conductivityWPerMK: number;
  specificHeatJPerGK: number;
  emissivityFraction?: number;
}

export interface Part {
  id: string;
  name?: string;
  /** The id of a metal in the table of materials, or a metal of one's own. */
  metal: string | OwnMetal;
  form: Form;
  /** Identical parts; metal and areas multiply. 1 when absent. */
  count?: number;
  /** A casting is held to the eutectic, 779 °C, not to the wrought solidus. */
  cast?: boolean;
  /** Highest temperature this part may reach (stone, enamel, spring temper, wood). */
  maxC?: number;
  /** A closed form, and the diameter of its open vent; 0: no vent left. */
  hollow?: { ventMm: number };
  /** Share of its surface that lies on the support, in place of the form's own. */
  supportContactFraction?: number;
}

/** A place on a part: by the axes of its form (alongMm, acrossMm; xMm, yMm); a ball or a weighed part has just one. */
export interface Place {
  part: string;
  xMm?: number;
  yMm?: number;
  alongMm?: number;
  acrossMm?: number;
}

/** The sizes that decide how much solder a joint takes, by kind. A fillet's radius is given once; the recipe knows its lines. */
export type JointSizes =
  | { kind: 'seam'; lengthMm: number; thicknessMm: number }
  | { kind: 'butt'; widthMm: number; thicknessMm: number }
  | { kind: 'lap'; widthMm: number; overlapMm: number; filletMm?: number; cornerAngleDeg?: number }
  | { kind: 'tee'; lengthMm: number; thicknessMm: number; filletMm?: number; cornerAngleDeg?: number }
  | {
      kind: 'loop_base';
      /** Absent: those of the part it stands on. */
      insideDiameterMm?: number;
      thicknessMm?: number;
      filletInsideMm?: number;
      filletOutsideMm?: number;
      cornerAngleDeg?: number;
    }
  /** diameterMm absent: the wire's own. */
  | { kind: 'jump_ring'; diameterMm?: number }
  /** exactRing: the fillet as the ring that it is, not as long as the foot of the post; false when absent. */
  | { kind: 'post'; diameterMm: number; filletMm?: number; cornerAngleDeg?: number; exactRing?: boolean }
  | { kind: 'granule'; diameterMm: number; neckRadiusMm: number };

/** What pulls on a joint while it is hot. */
export type Load = 'none' | 'own_weight' | 'sprung' | 'tied';

export interface JointCommon {
  id: string;
  name?: string;
  gapMm: number;
  /** The solder it is priced with; a plan may choose another. */
  solder?: string;
  /** Solder over and above what stays in the joint. 0.3 when absent. */
  trimFraction?: number;
  /** Chips of solder placed. 1 when absent. */
  pieces?: number;
  /** Identical joints. 1 when absent. */
  count?: number;
  load?: Load;
  /** A joint that exists already. */
  made?: { solder: Solder | 'unknown'; assumedSolidusC?: number; assumedLiquidusC?: number; cadmiumStanding?: CadmiumStanding };
}

/** A joint closes one part on itself or lies between two places. */
export type Joint = JointSizes &
  JointCommon &
  ({ closes: string; between?: never } | { between: readonly [Place, Place]; closes?: never });

/** Parts that touch without solder, such as neighbouring links of a chain: little heat passes, and they hang together in the fire. */
export interface Contact {
  kind: 'loose';
  between: readonly [Place, Place];
  /** 0.01 when absent: a guess, since how well links touch is in no table. */
  conductanceWPerK?: number;
}

export interface DesignRules {
  /** [a, b]: a is made in an earlier heat than b. */
  before?: readonly (readonly [string, string])[];
  sameHeat?: readonly (readonly string[])[];
  notSameHeat?: readonly (readonly string[])[];
  /** Most joints in one heat. 3 when absent. */
  maxJointsPerHeat?: number;
  /** Joints farther apart than this, along the metal, are never made together. */
  maxSpreadMm?: number;
  leastSilverFraction?: number;
  /** By joint: the one solder it must have, or those it must not. */
  grades?: Readonly<Record<string, { only?: string; exclude?: readonly string[] }>>;
}

export interface Design {
  parts: readonly Part[];
  joints: readonly Joint[];
  /** There from the first heat on, whatever joints are made. */
  contacts?: readonly Contact[];
  rules?: DesignRules;
}
