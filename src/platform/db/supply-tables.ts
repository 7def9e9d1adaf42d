/** What is used up beside solder and metal. */

import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const supplies = sqliteTable('supplies', {
  id: text('id').primaryKey(),
  name: text('name').notNull().unique(),
  kind: text('kind').$type<'flux' | 'pickle_salt' | 'gas' | 'finding' | 'stone' | 'other'>().notNull(),
  unit: text('unit').$type<'g' | 'piece'>().notNull(),
  price: text('price'),
  supplier: text('supplier'),
  packUnits: integer('pack_units').notNull(),
  orderPointUnits: integer('order_point_units'),
  safetySheet: text('safety_sheet'),
  active: integer('active', { mode: 'boolean' }).notNull().default(true),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const supplyMovements = sqliteTable('supply_movements', {
  id: text('id').primaryKey(),
  supplyId: text('supply_id').notNull(),
  kind: text('kind').$type<'receive' | 'use' | 'put_back' | 'count_up' | 'count_down' | 'write_off' | 'reverse'>().notNull(),
  onHandUnits: integer('on_hand_units').notNull(),
  unitCost: text('unit_cost'),
  reason: text('reason'),
  reversesId: text('reverses_id').unique(),
  personId: text('person_id'),
  at: text('at').notNull(),
});
