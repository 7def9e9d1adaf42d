import type { OwnMetal, Part } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { METAL_TABLE, type LinearInTemperature, type MetalEntry } from './metal-table.ts';

/** What the heat model and the scale need of a metal; lines are at20C + perK · (T − 20), 20–800 °C. */
export interface Metal {
  id: string;
  name: string;
  densityGPerCm3: number;
  /** Share of silver by mass, 0–1. */
  finenessFraction: number;
  solidusC: number;
  castSolidusC: number;
  liquidusC: number;
  conductivityWPerMK: LinearInTemperature;
  specificHeatJPerKgK: LinearInTemperature;
  emissivityFraction: number;
}

/** Given to a metal of one's own that does not say: the value of sterling. */
const USUAL_EMISSIVITY_FRACTION = METAL_TABLE['sterling-925'].emissivityFraction.value;

/** Silver and copper; no casting of both is held to more. */
const EUTECTIC_C = METAL_TABLE['sterling-925'].castSolidusC.value;
/** Fine silver, by the table. */
const PURE_FRACTION = METAL_TABLE['fine-silver-999'].finenessFraction.value;

function flatten(id: string, entry: MetalEntry): Metal {
  return {
    id,
    name: entry.name,
    densityGPerCm3: entry.densityGPerCm3.value,
    finenessFraction: entry.finenessFraction.value,
    solidusC: entry.solidusC.value,
    castSolidusC: entry.castSolidusC.value,
    liquidusC: entry.liquidusC.value,
    conductivityWPerMK: entry.conductivityWPerMK.value,
    specificHeatJPerKgK: entry.specificHeatJPerKgK.value,
    emissivityFraction: entry.emissivityFraction.value,
  };
}

const METALS: ReadonlyMap<string, Metal> = new Map(Object.entries(METAL_TABLE).map(([id, entry]) => [id, flatten(id, entry)]));

/** Every metal of the table, in its order. */
export function listMetals(): Metal[] {
  return [...METALS.values()];
}

/**
 * The metal of a part: a row of the table by its id, or a metal of one's own brought to the same form.
 *
 * A metal of one's own keeps one conductivity and one specific heat at all temperatures, counts as holding no silver
 * unless it says so. One that holds silver, short of fine, is held to the silver–copper eutectic, 779 °C, as a
 * casting; others melt as a casting where they melt wrought.
 *
 * @throws {EngineInputError} for an id that is in no table, naming those that are; for a number that is not positive,
 *   a fraction outside 0–1, or a liquidus under the solidus
 * @source the sources are in the table, value by value
 */
export function getMetal(metal: string | OwnMetal): Metal {
  if (typeof metal !== 'string') return fromOwn(metal);
  const found = METALS.get(metal);
  if (!found) throw new EngineInputError('metal', metal, `one of ${[...METALS.keys()].join(', ')}, or a metal of your own`);
  return found;
}

/**
 * Where a part begins to melt, °C: at its wrought solidus, or as a casting.
 *
 * @throws {EngineInputError} as getMetal()
 */
export function partSolidusC({ metal, cast }: Pick<Part, 'metal' | 'cast'>): number {
  const { solidusC, castSolidusC } = getMetal(metal);
  return cast ? castSolidusC : solidusC;
}

/** Rows of the table with zinc in them. */
const WITH_ZINC: ReadonlySet<string> = new Set<keyof typeof METAL_TABLE>(['brass', 'brass-65', 'nickel-silver']);

/**
 * Whether a metal may give poisonous fume in a soldering flame: zinc is in it, or nobody says that nothing of the kind is.
 *
 * @returns true for the brasses and nickel silver of the table, and for a metal of one's own that is base or of no known kind
 * @source judgement; zinc boils at 907 °C and fumes well below it
 */
export function mayGiveFume(metal: string | OwnMetal): boolean {
  return typeof metal === 'string' ? WITH_ZINC.has(metal) : metal.kind === undefined || metal.kind === 'base';
}

function fromOwn(own: OwnMetal): Metal {
  for (const field of ['densityGPerCm3', 'solidusC', 'liquidusC', 'conductivityWPerMK', 'specificHeatJPerGK'] as const) {
    if (!(own[field] > 0 && own[field] < Infinity)) throw new EngineInputError(field, own[field], '> 0');
  }
  if (!(own.liquidusC >= own.solidusC))
    throw new EngineInputError('liquidusC', own.liquidusC, `at least the solidus, ${own.solidusC} °C`);
  const { finenessFraction = 0, emissivityFraction = USUAL_EMISSIVITY_FRACTION } = own;
  if (!(finenessFraction >= 0 && finenessFraction <= 1))
    throw new EngineInputError('finenessFraction', finenessFraction, '0 to 1');
  if (!(emissivityFraction > 0 && emissivityFraction <= 1))
    throw new EngineInputError('emissivityFraction', emissivityFraction, 'above 0, to 1');
  const mayHoldEutectic = finenessFraction > 0 && finenessFraction < PURE_FRACTION;
  return {
    id: own.code ?? 'own',
    name: own.name ?? 'Own metal',
    densityGPerCm3: own.densityGPerCm3,
    finenessFraction,
    solidusC: own.solidusC,
    castSolidusC: mayHoldEutectic ? Math.min(own.solidusC, EUTECTIC_C) : own.solidusC,
    liquidusC: own.liquidusC,
    conductivityWPerMK: { at20C: own.conductivityWPerMK, perK: 0 },
    specificHeatJPerKgK: { at20C: own.specificHeatJPerGK * 1000, perK: 0 },
    emissivityFraction,
  };
}
