/** The bench: times, benches and absences, closed months, steps as devices sent them, what was learned, what students guess. */

import { integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { PredictedState } from '../../../shared/thermal/predicted-state.ts';

/** What came of a step: the record as it is after it, or what stood in the way (RFC 9457). */
export interface StepAnswer {
  key: string;
  status: number;
  result: unknown;
  problem: unknown;
}

/** What a factor was learned from: commission by commission, minutes guessed and minutes taken. */
export interface FactorEvidence {
  prior: number;
  centre: number;
  says: string;
  records: { commissionId: string; estimateMinutes: number; actualMinutes: number }[];
}

export const benchTimes = sqliteTable('bench_times', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  pieceId: text('piece_id'),
  heatId: text('heat_id'),
  operation: text('operation').notNull(),
  startedAt: text('started_at').notNull(),
  stoppedAt: text('stopped_at'),
  minutesByHand: integer('minutes_by_hand'),
  ratePerHour: text('rate_per_hour').notNull(),
  state: text('state').notNull(),
  note: text('note'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
  /** The time in a closed month that this one corrects, by more or fewer minutes. */
  correctsId: text('corrects_id'),
});

export const benches = sqliteTable('benches', {
  id: text('id').primaryKey(),
  name: text('name').notNull().unique(),
  personId: text('person_id').unique(),
  minutesPerDay: integer('minutes_per_day'),
  active: integer('active', { mode: 'boolean' }).notNull().default(true),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const absences = sqliteTable('absences', {
  id: text('id').primaryKey(),
  personId: text('person_id'),
  firstOn: text('first_on').notNull(),
  lastOn: text('last_on').notNull(),
  minutesPerDay: integer('minutes_per_day'),
  weekly: integer('weekly', { mode: 'boolean' }).notNull().default(false),
  reason: text('reason').notNull(),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const monthLocks = sqliteTable('month_locks', {
  id: text('id').primaryKey(),
  month: text('month').notNull().unique(),
  personId: text('person_id'),
  createdAt: text('created_at').notNull(),
});

export const benchSteps = sqliteTable(
  'bench_steps',
  {
    personId: text('person_id').notNull(),
    key: text('key').notNull(),
    requestHash: text('request_hash').notNull(),
    kind: text('kind').notNull(),
    deviceId: text('device_id').notNull(),
    deviceSeq: integer('device_seq').notNull(),
    occurredAt: text('occurred_at').notNull(),
    recordedAt: text('recorded_at').notNull(),
    answer: text('answer', { mode: 'json' }).$type<StepAnswer>().notNull(),
    firstLine: integer('first_line').notNull(),
    lastLine: integer('last_line').notNull(),
    undoneBy: text('undone_by'),
  },
  (table) => [primaryKey({ columns: [table.personId, table.key] })],
);

export const learnedFactors = sqliteTable('learned_factors', {
  id: text('id').primaryKey(),
  operation: text('operation').notNull(),
  personId: text('person_id'),
  factor: real('factor').notNull(),
  spread: real('spread').notNull(),
  pieces: integer('pieces').notNull(),
  evidence: text('evidence', { mode: 'json' }).$type<FactorEvidence>().notNull(),
  acceptedBy: text('accepted_by').notNull(),
  createdAt: text('created_at').notNull(),
});

export const jointGuesses = sqliteTable('joint_guesses', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  planId: text('plan_id').notNull(),
  /** Its place in the plan, from 1. */
  heat: integer('heat').notNull(),
  joint: text('joint').notNull(),
  guess: text('guess').$type<PredictedState>().notNull(),
  predicted: text('predicted').$type<PredictedState>().notNull(),
  at: text('at').notNull(),
});

export const tutorYes = sqliteTable(
  'tutor_yes',
  {
    heatId: text('heat_id').notNull(),
    studentId: text('student_id').notNull(),
    tutorId: text('tutor_id').notNull(),
    at: text('at').notNull(),
  },
  (table) => [primaryKey({ columns: [table.heatId, table.studentId] })],
);
