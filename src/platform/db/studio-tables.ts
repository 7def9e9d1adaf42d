/** People, their keys to the door, and what the whole book shares. */

import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { Confirmation, Role, ShownUnits } from './json-columns.ts';

export const people = sqliteTable('people', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  signInName: text('sign_in_name').unique(),
  passwordHash: text('password_hash'),
  roles: text('roles', { mode: 'json' }).$type<Role[]>().notNull(),
  tutor: integer('tutor', { mode: 'boolean' }).notNull().default(false),
  ratePerHour: text('rate_per_hour'),
  benchMinutesPerDay: integer('bench_minutes_per_day'),
  active: integer('active', { mode: 'boolean' }).notNull().default(true),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const sessions = sqliteTable('sessions', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  tokenHash: text('token_hash').notNull().unique(),
  createdAt: text('created_at').notNull(),
  expiresAt: text('expires_at').notNull(),
  revokedAt: text('revoked_at'),
  tabletId: text('tablet_id'),
  touchedAt: text('touched_at'),
});

export const tokens = sqliteTable('tokens', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  name: text('name').notNull(),
  tokenHash: text('token_hash').notNull().unique(),
  createdAt: text('created_at').notNull(),
  revokedAt: text('revoked_at'),
  roles: text('roles', { mode: 'json' }).$type<Role[]>(),
  onlyReads: integer('only_reads', { mode: 'boolean' }).notNull().default(false),
});

export const settings = sqliteTable('settings', {
  id: integer('id').primaryKey(),
  body: text('body', { mode: 'json' }).$type<unknown>().notNull(),
  version: integer('version').notNull(),
  updatedAt: text('updated_at').notNull(),
});

export const journal = sqliteTable('journal', {
  seq: integer('seq').primaryKey({ autoIncrement: true }),
  at: text('at').notNull(),
  personId: text('person_id'),
  deviceId: text('device_id'),
  what: text('what').notNull(),
  thingId: text('thing_id').notNull(),
  before: text('before', { mode: 'json' }).$type<unknown>(),
  after: text('after', { mode: 'json' }).$type<unknown>(),
  confirmed: text('confirmed', { mode: 'json' }).$type<Confirmation>(),
});

export const idempotencyKeys = sqliteTable(
  'idempotency_keys',
  {
    personId: text('person_id').notNull(),
    key: text('key').notNull(),
    requestHash: text('request_hash').notNull(),
    status: integer('status').notNull(),
    reply: text('reply', { mode: 'json' }).$type<unknown>().notNull(),
    createdAt: text('created_at').notNull(),
  },
  (table) => [primaryKey({ columns: [table.personId, table.key] })],
);

export const counters = sqliteTable('counters', {
  name: text('name').primaryKey(),
  last: integer('last').notNull(),
});

export const preferences = sqliteTable('preferences', {
  personId: text('person_id').primaryKey(),
  language: text('language'),
  units: text('units', { mode: 'json' }).$type<ShownUnits>(),
  version: integer('version').notNull(),
});
