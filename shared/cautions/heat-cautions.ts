import { CAUTIONS, type Caution, type CautionId } from './caution-table.ts';

/** What of a heat decides which cautions belong to it. */
export interface HeatFacts {
  /** Solder that holds cadmium or may hold it is in the fire. */
  cadmiumInDoubt: boolean;
  /** A joint of unknown solder is in the fire: it may be lead or tin. */
  unknownSolder: boolean;
  /** A metal of unknown kind, or one that holds zinc, is in the fire. */
  fumingMetal: boolean;
  /** Share of borax in the flux, 0–1. */
  boraxFraction: number;
  /** Fluoride is in the flux, or nobody knows that it is not. */
  fluorideInDoubt: boolean;
  hollow: boolean;
  /** Something that may not get hot (stone, enamel, wood) is in the fire. */
  heatShy: boolean;
  /** Steel is on the work: tweezers, a clamp. */
  steel: boolean;
  support: 'brick' | 'charcoal' | 'hard_brick' | 'air';
}

/**
 * The cautions of one heat, in the order of the table.
 *
 * Every heat has a flame over 600 °C, gas, a person, hot metal and a pickle; a quench but for hollow work and stones, which cool in
 * air. The closing of the last vent (C9) is the plan's check to tell.
 *
 * @returns never empty
 */
export function heatCautions(facts: HeatFacts): Caution[] {
  const shown: Readonly<Partial<Record<CautionId, boolean>>> = {
    C1: true,
    C2: true,
    C3: facts.fluorideInDoubt,
    C4: facts.boraxFraction > 0,
    C5: facts.cadmiumInDoubt,
    C6: facts.unknownSolder,
    C7: facts.fumingMetal,
    C8: facts.hollow,
    C10: facts.heatShy,
    C11: !facts.hollow && !facts.heatShy,
    C12: true,
    C13: true,
    C14: facts.steel,
    C16: true,
    C20: true,
    C21: facts.support !== 'air',
  };
  return CAUTIONS.filter(({ id }) => shown[id] === true);
}
