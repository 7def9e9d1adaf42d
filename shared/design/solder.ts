export type CadmiumStanding = 'no' | 'yes' | 'unknown';

/** A solder as the lot in use has it: its own two temperatures, never a grade word's. */
export interface Solder {
  id: string;
  /** Begins to melt. */
  solidusC: number;
  /** Flows. */
  liquidusC: number;
  silverFraction?: number;
  /** Grams that may be used; absent: no limit. */
  availableG?: number;
  cadmiumStanding?: CadmiumStanding;
  /** Of the metal; from the composition or a data sheet. */
  densityGPerCm3?: number;
  smallestPieceG?: number;
  /** Share of metal by mass, for paste. 1 when absent. */
  metalFraction?: number;
}
