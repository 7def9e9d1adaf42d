/** Metals that a studio adds to those of the table. */

import { integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { MetalKind } from '../../../shared/design/design.ts';
import type { METAL_TABLE } from '../../../shared/materials/metal-table.ts';

export const ownMetals = sqliteTable('own_metals', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  kind: text('kind').$type<MetalKind>().notNull(),
  likeMetal: text('like_metal').$type<keyof typeof METAL_TABLE>(),
  finenessFraction: real('fineness_fraction'),
  solidusC: real('solidus_c').notNull(),
  liquidusC: real('liquidus_c').notNull(),
  densityGPerCm3: real('density_g_per_cm3').notNull(),
  conductivityWPerMK: real('conductivity_w_per_m_k'),
  specificHeatJPerKgK: real('specific_heat_j_per_kg_k'),
  emissivityFraction: real('emissivity_fraction'),
  /** Who says so, by the name of the value. */
  sources: text('sources', { mode: 'json' }).$type<Partial<Record<string, string>>>().notNull(),
  active: integer('active', { mode: 'boolean' }).notNull().default(true),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});
