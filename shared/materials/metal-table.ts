import type { Sourced, Standing } from './sourced.ts';

/** Linear in temperature: at20C + perK · (T − 20). */
export interface LinearInTemperature {
  at20C: number;
  perK: number;
}

/** A row of the table: what the heat model and the scale need of a metal, each value with its source. */
export interface MetalEntry {
  name: string;
  densityGPerCm3: Sourced;
  /** Share of silver by mass. */
  finenessFraction: Sourced;
  /** Begins to melt: wrought and annealed. */
  solidusC: Sourced;
  /** Begins to melt: as cast, with the copper not yet evened out. */
  castSolidusC: Sourced;
  liquidusC: Sourced;
  conductivityWPerMK: Sourced<LinearInTemperature>;
  specificHeatJPerKgK: Sourced<LinearInTemperature>;
  /** Total, of the surface as it is at the hearth: fluxed and partly oxidised. */
  emissivityFraction: Sourced;
}

const A1 = 'Incropera et al., Fundamentals of Heat and Mass Transfer, 7th ed., Table A.1';
const KOPP_NEUMANN = 'Kopp–Neumann sum of the silver and copper lines of this table';
const MIXTURE = '1/ρ = Σ w/ρ with Ag 10.49, Cu 8.96 g/cm³';

const of = <T>(value: T, standing: Standing, source: string): Sourced<T> => ({ value, standing, source });
const line = (at20C: number, perK: number): LinearInTemperature => ({ at20C, perK });

/**
 * The metals a studio works, by id.
 *
 * Conductivity and specific heat are straight lines over 20–800 °C; the sources of the lines name the worst distance
 * from the tables they were drawn through. The range is that of soldering with silver solders.
 */
export const METAL_TABLE = {
  'sterling-925': {
    name: 'Sterling silver',
    densityGPerCm3: of(10.36, 'found', `material page; ${MIXTURE} gives 10.36 too`),
    finenessFraction: of(0.925, 'found', 'Hallmarking Convention, country profile of the UK; in ISO 9202 as well, from memory'),
    solidusC: of(802, 'found', 'encyclopedia table, 802/899; one supplier guide says 805, the straight solidus line 796'),
    castSolidusC: of(
      779,
      'found',
      'Ag–Cu eutectic, NIST assessment 779.1 °C; AWS A5.8 BAg-19 lists 1435 °F for sterling with lithium',
    ),
    liquidusC: of(893, 'found', 'several tutorials; AWS A5.8 BAg-19 lists 891, a supplier guide 890, an encyclopedia 899'),
    conductivityWPerMK: of(
      line(360, -0.03),
      'judgement',
      'about nine tenths of fine silver when hot; Wiedemann–Franz from 96 % IACS gives 380 at 20 °C; ± 40 W/(m·K)',
    ),
    specificHeatJPerKgK: of(
      line(245, 0.045),
      'judgement',
      'material page, 245 at 20 °C; the Kopp–Neumann sum is 5 % higher at 730 °C',
    ),
    emissivityFraction: of(
      0.35,
      'judgement',
      'between clean silver, 0.05, and flux glass, 0.85; low end of oxidised copper, 0.3–0.6',
    ),
  },
  'fine-silver-999': {
    name: 'Fine silver',
    densityGPerCm3: of(10.49, 'memory', `handbook value; ${A1} prints 10.5`),
    finenessFraction: of(0.999, 'found', 'Hallmarking Convention, country profile of the UK; in ISO 9202 as well, from memory'),
    solidusC: of(961, 'found', 'ITS-90 fixed point 961.78 °C, rounded down'),
    castSolidusC: of(961, 'found', 'ITS-90 fixed point 961.78 °C: a pure metal has no range'),
    liquidusC: of(961, 'found', 'ITS-90 fixed point 961.78 °C, rounded down'),
    conductivityWPerMK: of(line(427, -0.072), 'derived', `line through ${A1}, 300–1000 K, within 2 %`),
    specificHeatJPerKgK: of(line(235, 0.04), 'derived', `line from the 300 K value of ${A1}; 5 % low at 1000 K`),
    emissivityFraction: of(0.3, 'judgement', 'between clean silver, 0.05, and flux glass, 0.85; no copper oxide on it'),
  },
  'britannia-958': {
    name: 'Britannia silver',
    densityGPerCm3: of(10.42, 'derived', MIXTURE),
    finenessFraction: of(0.9584, 'memory', 'UK standard of 958.4 parts per thousand'),
    solidusC: of(890, 'found', 'supplier guide, 890–940 °C; the straight solidus line gives 870'),
    castSolidusC: of(779, 'judgement', 'Ag–Cu eutectic, as for any copper-bearing casting'),
    liquidusC: of(940, 'found', 'supplier guide, 890–940 °C'),
    conductivityWPerMK: of(line(375, -0.04), 'judgement', 'between the lines of sterling and fine silver; ± 40 W/(m·K)'),
    specificHeatJPerKgK: of(line(241, 0.042), 'derived', KOPP_NEUMANN),
    emissivityFraction: of(0.35, 'judgement', 'as sterling'),
  },
  'germanium-silver-935': {
    name: 'Germanium silver 935',
    densityGPerCm3: of(10.28, 'derived', '1/ρ = Σ w/ρ, taking 93.5 Ag, 5.3 Cu, 1.2 Ge (5.32 g/cm³)'),
    finenessFraction: of(0.935, 'found', 'the name of the alloy'),
    solidusC: of(803, 'found', 'encyclopedia table, 803/903; hot-short, not to be moved while red'),
    castSolidusC: of(779, 'judgement', 'Ag–Cu eutectic; the Cu–Ge eutectic can melt in spots from 554 °C'),
    liquidusC: of(903, 'found', 'encyclopedia table, 803/903'),
    conductivityWPerMK: of(line(330, -0.03), 'judgement', 'under sterling, since dissolved germanium scatters; ± 50 W/(m·K)'),
    specificHeatJPerKgK: of(line(244, 0.043), 'derived', KOPP_NEUMANN),
    emissivityFraction: of(0.3, 'judgement', 'as fine silver: it hardly oxidises'),
  },
  'germanium-silver-960': {
    name: 'Germanium silver 960',
    densityGPerCm3: of(10.32, 'derived', '1/ρ = Σ w/ρ, taking 96.0 Ag, 2.8 Cu, 1.2 Ge (5.32 g/cm³)'),
    finenessFraction: of(0.96, 'found', 'the name of the alloy'),
    solidusC: of(905, 'found', 'encyclopedia table, 905/925; hot-short, not to be moved while red'),
    castSolidusC: of(779, 'judgement', 'Ag–Cu eutectic, as for any copper-bearing casting'),
    liquidusC: of(925, 'found', 'encyclopedia table, 905/925'),
    conductivityWPerMK: of(line(345, -0.035), 'judgement', 'under britannia, since dissolved germanium scatters; ± 50 W/(m·K)'),
    specificHeatJPerKgK: of(line(240, 0.042), 'derived', KOPP_NEUMANN),
    emissivityFraction: of(0.3, 'judgement', 'as fine silver: it hardly oxidises'),
  },
  copper: {
    name: 'Copper',
    densityGPerCm3: of(8.94, 'memory', `handbook value; ${A1} prints 8.933`),
    finenessFraction: of(0, 'derived', 'no silver'),
    solidusC: of(1083, 'memory', 'older handbooks; the ITS-90 point is 1084.62 °C'),
    castSolidusC: of(1083, 'memory', 'older handbooks; the ITS-90 point is 1084.62 °C'),
    liquidusC: of(1083, 'memory', 'older handbooks; the ITS-90 point is 1084.62 °C'),
    conductivityWPerMK: of(line(395, -0.06), 'derived', `line through ${A1}, 300–1000 K, within 2 %`),
    specificHeatJPerKgK: of(line(385, 0.095), 'derived', `line through ${A1}, 300–1000 K, within 1 %`),
    emissivityFraction: of(0.6, 'judgement', 'within HEDH 5.5.7, oxidised copper, 0.5–0.8 over 600–1000 K'),
  },
  brass: {
    name: 'Brass, 70 copper 30 zinc',
    densityGPerCm3: of(8.53, 'found', 'C26000 page'),
    finenessFraction: of(0, 'derived', 'no silver'),
    solidusC: of(915, 'found', 'C26000 page, 916 °C, rounded to 5'),
    castSolidusC: of(915, 'judgement', 'as wrought'),
    liquidusC: of(955, 'found', 'C26000 page, 954 °C, rounded to 5'),
    conductivityWPerMK: of(line(120, 0.05), 'derived', `C26000 page, 121 at 20 °C; ${A1} prints 110 at 300 K and 149 at 600 K`),
    specificHeatJPerKgK: of(line(375, 0.09), 'derived', `line through ${A1}, 300–600 K; 5 % low at 600 K`),
    emissivityFraction: of(0.5, 'judgement', 'within oxidised brass, 0.46–0.56, after Thome'),
  },
  'brass-65': {
    name: 'Brass, 65 copper 35 zinc',
    densityGPerCm3: of(8.47, 'found', 'C27000 page'),
    finenessFraction: of(0, 'derived', 'no silver'),
    solidusC: of(904, 'found', 'C27000 page, 1660 °F'),
    castSolidusC: of(904, 'judgement', 'as wrought'),
    liquidusC: of(932, 'found', 'C27000 page, 1710 °F'),
    conductivityWPerMK: of(line(116, 0.05), 'derived', 'C27000 page at 20 °C; slope of the 70/30 line'),
    specificHeatJPerKgK: of(line(377, 0.09), 'derived', 'C27000 page at 20 °C; slope of the 70/30 line'),
    emissivityFraction: of(0.5, 'judgement', 'within oxidised brass, 0.46–0.56, after Thome'),
  },
  'nickel-silver': {
    name: 'Nickel silver, 55 copper 27 zinc 18 nickel',
    densityGPerCm3: of(8.7, 'memory', 'C77000, Copper Development Association; a material database prints 8.3'),
    finenessFraction: of(0, 'derived', 'no silver, whatever its name'),
    solidusC: of(1000, 'found', 'C77000, material database'),
    castSolidusC: of(1000, 'judgement', 'as wrought'),
    liquidusC: of(1050, 'found', 'C77000, material database'),
    conductivityWPerMK: of(line(29, 0.03), 'judgement', 'C77000, material database, 29 at 20 °C; the slope is a guess'),
    specificHeatJPerKgK: of(line(400, 0.09), 'judgement', 'C77000, material database, 400 at 20 °C; slope of brass'),
    emissivityFraction: of(0.5, 'judgement', 'as oxidised brass'),
  },
  'stainless-steel': {
    name: 'Stainless steel',
    densityGPerCm3: of(7.9, 'memory', `type 304; ${A1} prints 8.238 for type 316`),
    finenessFraction: of(0, 'derived', 'no silver'),
    solidusC: of(1400, 'memory', 'type 304, handbook'),
    castSolidusC: of(1400, 'memory', 'type 304, handbook'),
    liquidusC: of(1450, 'memory', 'type 304, handbook'),
    conductivityWPerMK: of(line(15, 0.013), 'memory', `line through ${A1}, type 304, 300–1000 K, within 5 %`),
    specificHeatJPerKgK: of(line(480, 0.15), 'judgement', `line near ${A1}, type 316, 300–1000 K, within 4 %`),
    emissivityFraction: of(0.6, 'judgement', 'between polished and scaled'),
  },
} as const satisfies Record<string, MetalEntry>;
