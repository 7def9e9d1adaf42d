/** Searches for a plan, with what they were asked and what they answered. */

import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { Design } from '../../../shared/design/design.ts';
import type { Solder } from '../../../shared/design/solder.ts';
import type { Proof } from '../../../shared/sequencing/levels.ts';
import type { PlanSearchAnswer, PlanSearchOptions, Policy } from '../../../shared/sequencing/plan-search-request.ts';
import type { BookBench, MadeJoint } from './json-columns.ts';

/** How far a search is. */
export interface SearchProgress {
  workUnits: number;
  workUnitsAllowed: number;
  thermalRuns: number;
  /** Since it began; what it waited before does not count. */
  elapsedMs: number;
  /** The best plan so far: what each level of the objective is worth, and what it could still be. */
  best: { policy: Policy; levels: Proof[] } | null;
}

/** What the one box searches; kept by triggers, and with it the words of an index of trigrams (searchable_words). */
export const searchable = sqliteTable('searchable', {
  seq: integer('seq').primaryKey(),
  kind: text('kind').notNull(),
  thingId: text('thing_id').notNull(),
  label: text('label').notNull(),
  words: text('words').notNull(),
});

export const planSearches = sqliteTable('plan_searches', {
  id: text('id').primaryKey(),
  pieceId: text('piece_id'),
  designId: text('design_id'),
  personId: text('person_id').notNull(),
  state: text('state').notNull(),
  /** Of a piece: as it truly was when the search was asked for. */
  design: text('design', { mode: 'json' }).$type<Design>().notNull(),
  madeJoints: text('made_joints', { mode: 'json' }).$type<MadeJoint[]>().notNull().default([]),
  bench: text('bench', { mode: 'json' }).$type<BookBench>().notNull(),
  solders: text('solders', { mode: 'json' }).$type<Solder[]>().notNull(),
  options: text('options', { mode: 'json' }).$type<PlanSearchOptions>().notNull(),
  progress: text('progress', { mode: 'json' }).$type<SearchProgress>(),
  answer: text('answer', { mode: 'json' }).$type<PlanSearchAnswer>(),
  /** Why there is no answer, in words. */
  failure: text('failure'),
  /** The draft that was made of the answer. */
  planId: text('plan_id'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
  startedAt: text('started_at'),
  endedAt: text('ended_at'),
});
