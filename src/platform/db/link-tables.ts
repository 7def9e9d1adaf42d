/** Letters as they were sent, and what clients see and do by private links, and who looked at what is known of them. */

import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const sentLetters = sqliteTable('sent_letters', {
  quoteId: text('quote_id').primaryKey(),
  paper: text('paper', { mode: 'json' }).notNull(),
  createdAt: text('created_at').notNull(),
});

export const clientLetters = sqliteTable('client_letters', {
  id: text('id').primaryKey(),
  commissionId: text('commission_id').notNull(),
  kind: text('kind').notNull(),
  how: text('how').notNull(),
  sentOn: text('sent_on').notNull(),
  note: text('note'),
  personId: text('person_id').notNull(),
  createdAt: text('created_at').notNull(),
});

export const privateLinks = sqliteTable('private_links', {
  id: text('id').primaryKey(),
  commissionId: text('commission_id').notNull(),
  tokenHash: text('token_hash').notNull().unique(),
  state: text('state').notNull(),
  stateReason: text('state_reason'),
  visits: integer('visits').notNull().default(0),
  lastVisitAt: text('last_visit_at'),
  madeBy: text('made_by').notNull(),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const clientMessages = sqliteTable('client_messages', {
  id: text('id').primaryKey(),
  commissionId: text('commission_id').notNull(),
  linkId: text('link_id').notNull(),
  words: text('words').notNull(),
  createdAt: text('created_at').notNull(),
});

export const clientLooks = sqliteTable('client_looks', {
  id: text('id').primaryKey(),
  clientId: text('client_id'),
  personId: text('person_id').notNull(),
  way: text('way').notNull(),
  at: text('at').notNull(),
});

/** A row only while a client is forgotten: the triggers of what never changes look here. */
export const forgetting = sqliteTable('forgetting', { clientId: text('client_id').primaryKey() });
