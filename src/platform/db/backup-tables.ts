/** Copies of the book that were put away. */

import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const backups = sqliteTable('backups', {
  id: text('id').primaryKey(),
  begunAt: text('begun_at').notNull(),
  endedAt: text('ended_at'),
  state: text('state').$type<'running' | 'kept' | 'failed' | 'removed'>().notNull(),
  askedBy: text('asked_by'),
  folder: text('folder').notNull(),
  fileName: text('file_name').notNull(),
  bytes: integer('bytes'),
  sha256: text('sha256'),
  failure: text('failure'),
  checkedAt: text('checked_at'),
  checkFailure: text('check_failure'),
});
