import type { z } from 'zod';
import { METAL_TABLE, type MetalEntry } from '../../../shared/materials/metal-table.ts';
import { getMetal } from '../../../shared/materials/metal.ts';
import type { MetalReply, OwnMetalReply } from './metals.schema.ts';
import type { OwnMetalRow } from './metals.store.ts';
import { copyOf, likeOf } from './own-metal-values.ts';

type Shown = z.infer<typeof MetalReply>;

/** The rows of the table, as it has them. */
export function tableMetals(): Shown[] {
  return Object.entries(METAL_TABLE).map(([id, entry]: [string, MetalEntry]) => ({
    id,
    from: 'table' as const,
    kind: entry.finenessFraction.value > 0 ? ('silver' as const) : ('base' as const),
    ...entry,
  }));
}

/** A metal of the studio: each value with who says so, or what stands in for it. */
export function showOwnMetal(row: OwnMetalRow): z.infer<typeof OwnMetalReply> {
  const { id, name, kind, active, version, createdAt } = row;
  const like = likeOf(row);
  const metal = getMetal(copyOf(row));
  const own = <Value>(field: string, value: Value) => ({ value, source: row.sources[field]!, standing: 'own' as const });
  const orLike = <Value>(field: 'conductivityWPerMK' | 'specificHeatJPerKgK' | 'emissivityFraction', value: Value) => {
    if (row[field] !== null) return own(field, value);
    const { name: likeName } = METAL_TABLE[like!];
    const source =
      field === 'emissivityFraction' ? `as ${likeName} of the table, assumed` : `as ${likeName} of the table, at 400 °C, assumed`;
    return { value, source, standing: 'assumed' as const };
  };
  return {
    id,
    from: 'studio',
    name,
    kind,
    densityGPerCm3: own('densityGPerCm3', metal.densityGPerCm3),
    finenessFraction:
      row.finenessFraction === null
        ? { value: 0, source: 'holds no silver unless somebody says so', standing: 'assumed' }
        : own('finenessFraction', row.finenessFraction),
    solidusC: own('solidusC', metal.solidusC),
    castSolidusC: {
      value: metal.castSolidusC,
      source: metal.castSolidusC < metal.solidusC ? 'Ag–Cu eutectic, as for any casting that may hold copper' : 'as wrought',
      standing: 'derived',
    },
    liquidusC: own('liquidusC', metal.liquidusC),
    conductivityWPerMK: orLike('conductivityWPerMK', metal.conductivityWPerMK),
    specificHeatJPerKgK: orLike('specificHeatJPerKgK', metal.specificHeatJPerKgK),
    emissivityFraction: orLike('emissivityFraction', metal.emissivityFraction),
    like: like ?? null,
    active,
    version,
    createdAt,
  };
}
