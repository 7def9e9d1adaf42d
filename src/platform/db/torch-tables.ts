/** Torches, and what observed heats say of them in somebody's hands. */

import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { TorchCalibration } from '../../../shared/thermal/calibration/calibrate-torch.ts';
import type { ObservedHeat, ObservedStrip, TorchCalibrationRequest } from '../../../shared/thermal/calibration/observation.ts';

export const torches = sqliteTable('torches', {
  id: text('id').primaryKey(),
  name: text('name').notNull().unique(),
  torch: text('torch', { mode: 'json' }).$type<TorchCalibrationRequest['torch']>().notNull(),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const calibrations = sqliteTable('calibrations', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  torchId: text('torch_id').notNull(),
  version: integer('version').notNull(),
  answer: text('answer', { mode: 'json' }).$type<TorchCalibration>().notNull(),
  heatIds: text('heat_ids', { mode: 'json' }).$type<string[]>().notNull(),
  observations: text('observations', { mode: 'json' }).$type<ObservedHeat[]>().notNull(),
  strips: text('strips', { mode: 'json' }).$type<ObservedStrip[]>().notNull(),
  createdAt: text('created_at').notNull(),
});
