import { CAUTIONS, type Caution, type CautionId } from './caution-table.ts';

/** What of a heat decides which cautions belong to it. */
export interface HeatFacts {
  /** Solder that holds cadmium or may hold it is in the fire. */
  cadmiumInDoubt: boolean;
  /** Share of borax in the flux, 0–1; null: the flux is not known, and both flux cautions count. */
  boraxFraction: number | null;
  /** An own metal, or one that is no silver alloy, is in the fire. */
  unknownMetal: boolean;
  hollow: boolean;
  /** This heat closes the last vent. */
  closesLastVent: boolean;
  /** Something that may not get hot (stone, enamel, wood) is in the fire. */
  heatShy: boolean;
  /** Steel is near the work: tweezers, clamps. */
  steel: boolean;
  support: 'brick' | 'charcoal' | 'hard_brick' | 'air';
}

/**
 * The cautions of one heat, in the order of the table.
 *
 * Every heat has a flame over 600 °C, hot metal, a quench (but for hollow work and stones, which cool in air) and a pickle, a person
 * and gas. Which flux is on the bench is often not known; then both flux cautions are shown.
 */
export function heatCautions(facts: HeatFacts): Caution[] {
  const airOnly = facts.hollow || facts.heatShy;
  const shown: Readonly<Partial<Record<CautionId, boolean>>> = {
    C1: true,
    C2: true,
    C3: facts.boraxFraction === null,
    C4: facts.boraxFraction === null || facts.boraxFraction > 0,
    C5: facts.cadmiumInDoubt,
    C7: facts.unknownMetal,
    C8: facts.hollow,
    C9: facts.closesLastVent,
    C10: facts.heatShy,
    C11: !airOnly,
    C12: true,
    C13: true,
    C14: facts.steel,
    C16: true,
    C20: true,
    C21: facts.support !== 'air',
  };
  return CAUTIONS.filter(({ id }) => shown[id] === true);
}
