/** Tablets that several people use, the PINs they do it by, and codes for whoever lost a PIN or a password. */

import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const sharedTablets = sqliteTable('shared_tablets', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  tokenHash: text('token_hash').notNull().unique(),
  addedBy: text('added_by').notNull(),
  revokedAt: text('revoked_at'),
  createdAt: text('created_at').notNull(),
});

export const pins = sqliteTable('pins', {
  personId: text('person_id').primaryKey(),
  pinHash: text('pin_hash').notNull(),
  createdAt: text('created_at').notNull(),
});

export const pinTries = sqliteTable('pin_tries', {
  who: text('who').primaryKey(),
  wrong: integer('wrong').notNull(),
  nextAt: text('next_at'),
});

export const oneTimeCodes = sqliteTable('one_time_codes', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  purpose: text('purpose').$type<'pin' | 'password'>().notNull(),
  codeHash: text('code_hash').notNull().unique(),
  expiresAt: text('expires_at').notNull(),
  usedAt: text('used_at'),
  createdAt: text('created_at').notNull(),
});
