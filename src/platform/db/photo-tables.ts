/** Pictures of the work, and their bytes. */

import { blob, integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const photos = sqliteTable('photos', {
  id: text('id').primaryKey(),
  commissionId: text('commission_id').notNull(),
  pieceId: text('piece_id'),
  heatId: text('heat_id'),
  incidentId: text('incident_id'),
  part: text('part'),
  caption: text('caption'),
  takenAt: text('taken_at').notNull(),
  showsPerson: integer('shows_person', { mode: 'boolean' }).notNull(),
  clientMaySee: integer('client_may_see', { mode: 'boolean' }).notNull().default(false),
  widthPx: integer('width_px').notNull(),
  heightPx: integer('height_px').notNull(),
  sha256: text('sha256').notNull(),
  addedBy: text('added_by').notNull(),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const photoFiles = sqliteTable(
  'photo_files',
  {
    photoId: text('photo_id').notNull(),
    size: text('size').$type<'full' | 'thumbnail'>().notNull(),
    bytes: blob('bytes', { mode: 'buffer' }).notNull(),
  },
  (table) => [primaryKey({ columns: [table.photoId, table.size] })],
);
