import type { OwnMetal } from '../../../shared/design/design.ts';
import { METAL_TABLE, type LinearInTemperature, type MetalEntry } from '../../../shared/materials/metal-table.ts';
import type { OwnMetalRow } from './metals.store.ts';

type TableId = keyof typeof METAL_TABLE;

/** A name such as "constructor" is no row. */
export function isInTable(id: string): id is TableId {
  return Object.hasOwn(METAL_TABLE, id);
}

/** What a typed value may be left out for: the table has the like. */
const ASSUMABLE = ['conductivityWPerMK', 'specificHeatJPerKgK', 'emissivityFraction'] as const;

/** Mean of a heat from 20 to 780 °C; the mean of a straight line is its middle. */
const MIDDLE_C = 400;

/** The metal of the table whose values stand where the studio typed none; undefined where there is none that is like it. */
export function likeOf({ likeMetal, kind, finenessFraction }: OwnMetalRow): TableId | undefined {
  if (likeMetal) return likeMetal;
  if (kind !== 'silver') return undefined;
  const distance = (id: TableId) => Math.abs(METAL_TABLE[id].finenessFraction.value - (finenessFraction ?? 0));
  const silvers = (Object.keys(METAL_TABLE) as TableId[]).filter((id) => METAL_TABLE[id].finenessFraction.value > 0);
  return silvers.toSorted((a, b) => distance(a) - distance(b))[0];
}

/** Values that are neither typed nor to be had from the table. */
export function missingValues(row: OwnMetalRow): string[] {
  return likeOf(row) === undefined ? ASSUMABLE.filter((name) => row[name] === null) : [];
}

/** The metal as the engine takes it: what a design keeps of it. */
export function copyOf(row: OwnMetalRow): Required<OwnMetal> {
  const like = likeOf(row);
  // Where the table is not asked, every value is typed: the service saw to it.
  const { conductivityWPerMK, specificHeatJPerKgK, emissivityFraction }: MetalEntry = METAL_TABLE[like ?? 'sterling-925'];
  return {
    code: row.id,
    name: row.name,
    kind: row.kind,
    densityGPerCm3: row.densityGPerCm3,
    finenessFraction: row.finenessFraction ?? 0,
    solidusC: row.solidusC,
    liquidusC: row.liquidusC,
    conductivityWPerMK: row.conductivityWPerMK ?? inTheMiddle(conductivityWPerMK.value),
    specificHeatJPerGK: (row.specificHeatJPerKgK ?? inTheMiddle(specificHeatJPerKgK.value)) / 1000,
    emissivityFraction: row.emissivityFraction ?? emissivityFraction.value,
  };
}

function inTheMiddle({ at20C, perK }: LinearInTemperature): number {
  return Number((at20C + perK * (MIDDLE_C - 20)).toPrecision(4));
}
