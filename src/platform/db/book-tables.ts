/** Commissions and what hangs on them: pieces, plans, heats, solder, time and money. */

import { integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { Estimate, EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import type { Design } from '../../../shared/design/design.ts';
import type { Plan } from '../../../shared/design/plan.ts';
import type { CadmiumStanding, Solder } from '../../../shared/design/solder.ts';
import type { PlanCheck } from '../../../shared/sequencing/plan-check-answer.ts';
import type { ObservedTimes } from '../../../shared/thermal/calibration/observation.ts';
import type {
  BookBench,
  CadmiumDocument,
  ClientProperty,
  HeatFlux,
  HeatReadiness,
  MadeJoint,
  MovementKind,
  SearchResult,
  SolderForm,
} from './json-columns.ts';

export const clients = sqliteTable('clients', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  email: text('email'),
  phone: text('phone'),
  language: text('language').notNull(),
  postAddress: text('post_address'),
  ringSizeMm: real('ring_size_mm'),
  metalSensitivity: text('metal_sensitivity'),
  photoAllowed: integer('photo_allowed', { mode: 'boolean' }).notNull().default(false),
  notes: text('notes'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
  forgottenAt: text('forgotten_at'),
});

export const commissions = sqliteTable('commissions', {
  id: text('id').primaryKey(),
  number: text('number').notNull().unique(),
  title: text('title').notNull(),
  kind: text('kind').notNull(),
  clientId: text('client_id'),
  wish: text('wish'),
  quantity: integer('quantity').notNull(),
  dueOn: text('due_on'),
  budgetMinor: integer('budget_minor'),
  placeOfSale: text('place_of_sale'),
  clientProperty: text('client_property', { mode: 'json' }).$type<ClientProperty[]>().notNull().default([]),
  pointsToPieceId: text('points_to_piece_id'),
  quiet: integer('quiet', { mode: 'boolean' }).notNull().default(false),
  state: text('state').notNull(),
  stateReason: text('state_reason'),
  stateSince: text('state_since').notNull(),
  waitingFor: text('waiting_for'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const pieces = sqliteTable('pieces', {
  id: text('id').primaryKey(),
  number: text('number').notNull().unique(),
  commissionId: text('commission_id').notNull(),
  serial: integer('serial').notNull(),
  title: text('title').notNull(),
  metal: text('metal').notNull(),
  state: text('state').notNull(),
  stateBeforeAside: text('state_before_aside'),
  stateReason: text('state_reason'),
  whereabouts: text('whereabouts').notNull(),
  metalIssuedTenthMg: integer('metal_issued_tenth_mg'),
  metalReturnedTenthMg: integer('metal_returned_tenth_mg'),
  weighedTenthMg: integer('weighed_tenth_mg'),
  builtBy: text('built_by'),
  remakeOfPieceId: text('remake_of_piece_id').unique(),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const designs = sqliteTable('designs', {
  id: text('id').primaryKey(),
  pieceId: text('piece_id').notNull(),
  number: integer('number').notNull(),
  body: text('body', { mode: 'json' }).$type<Design>().notNull(),
  entered: text('entered', { mode: 'json' }).$type<Record<string, string>>().notNull().default({}),
  madeBy: text('made_by').notNull(),
  createdAt: text('created_at').notNull(),
});

export const plans = sqliteTable('plans', {
  id: text('id').primaryKey(),
  pieceId: text('piece_id').notNull(),
  number: integer('number').notNull(),
  state: text('state').notNull(),
  designId: text('design_id').notNull(),
  origin: text('origin').notNull(),
  body: text('body', { mode: 'json' }).$type<Plan>().notNull(),
  madeJoints: text('made_joints', { mode: 'json' }).$type<MadeJoint[]>().notNull().default([]),
  bench: text('bench', { mode: 'json' }).$type<BookBench>().notNull(),
  solders: text('solders', { mode: 'json' }).$type<Solder[]>().notNull(),
  checkResult: text('check_result', { mode: 'json' }).$type<PlanCheck>(),
  searchResult: text('search_result', { mode: 'json' }).$type<SearchResult>(),
  madeBy: text('made_by').notNull(),
  signedBy: text('signed_by'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const solderProducts = sqliteTable('solder_products', {
  id: text('id').primaryKey(),
  code: text('code').notNull().unique(),
  name: text('name').notNull(),
  gradeWord: text('grade_word').notNull(),
  solidusC: real('solidus_c').notNull(),
  liquidusC: real('liquidus_c').notNull(),
  silverFraction: real('silver_fraction'),
  cadmiumStanding: text('cadmium_standing').$type<CadmiumStanding>().notNull(),
  leadOrTinStanding: text('lead_or_tin_standing').$type<CadmiumStanding>().notNull(),
  form: text('form').$type<SolderForm>().notNull(),
  metalFraction: real('metal_fraction').notNull(),
  densityGPerCm3: real('density_g_per_cm3').notNull(),
  smallestPieceG: real('smallest_piece_g').notNull(),
  safetySheet: text('safety_sheet').notNull(),
  supplier: text('supplier').notNull(),
  packG: real('pack_g').notNull(),
  pricePerG: text('price_per_g').notNull(),
  leadWeeks: integer('lead_weeks').notNull(),
  cadmiumDocument: text('cadmium_document', { mode: 'json' }).$type<CadmiumDocument>(),
  active: integer('active', { mode: 'boolean' }).notNull().default(true),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
  fluxFluoride: text('flux_fluoride').$type<CadmiumStanding>(),
});

export const solderLots = sqliteTable('solder_lots', {
  id: text('id').primaryKey(),
  number: text('number').notNull().unique(),
  productId: text('product_id').notNull(),
  receivedOn: text('received_on').notNull(),
  receivedTenthMg: integer('received_tenth_mg').notNull(),
  unitCostPerG: text('unit_cost_per_g').notNull(),
  markOnMetal: text('mark_on_metal'),
  useBy: text('use_by'),
  cadmiumStanding: text('cadmium_standing').$type<CadmiumStanding>().notNull(),
  cadmiumDocument: text('cadmium_document', { mode: 'json' }).$type<CadmiumDocument>(),
  state: text('state').notNull(),
  stateReason: text('state_reason'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
  orderLineId: text('order_line_id'),
});

export const heats = sqliteTable('heats', {
  id: text('id').primaryKey(),
  pieceId: text('piece_id').notNull(),
  planId: text('plan_id').notNull(),
  number: integer('number').notNull(),
  position: integer('position').notNull(),
  joints: text('joints', { mode: 'json' }).$type<string[]>().notNull(),
  purpose: text('purpose').notNull(),
  productId: text('product_id'),
  lotId: text('lot_id'),
  plannedTenthMg: integer('planned_tenth_mg').notNull(),
  usedTenthMg: integer('used_tenth_mg'),
  state: text('state').notNull(),
  readiness: text('readiness', { mode: 'json' }).$type<HeatReadiness>(),
  outcome: text('outcome'),
  seen: text('seen'),
  primedBy: text('primed_by'),
  litBy: text('lit_by'),
  alightAt: text('alight_at'),
  endedAt: text('ended_at'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
  observed: text('observed', { mode: 'json' }).$type<ObservedTimes>(),
  benchId: text('bench_id'),
  flux: text('flux', { mode: 'json' }).$type<HeatFlux>(),
});

export const joints = sqliteTable(
  'joints',
  {
    pieceId: text('piece_id').notNull(),
    jointId: text('joint_id').notNull(),
    state: text('state').notNull(),
    heatId: text('heat_id'),
    solder: text('solder', { mode: 'json' }).$type<Solder>(),
    cadmiumStanding: text('cadmium_standing').$type<CadmiumStanding>().notNull().default('no'),
    cadmiumDocument: text('cadmium_document', { mode: 'json' }).$type<CadmiumDocument>(),
  },
  (table) => [primaryKey({ columns: [table.pieceId, table.jointId] })],
);

export const cautionTicks = sqliteTable(
  'caution_ticks',
  {
    heatId: text('heat_id').notNull(),
    personId: text('person_id').notNull(),
    cautionId: text('caution_id').notNull(),
    at: text('at').notNull(),
    /** As they were read; null of ticks from before they were kept. */
    words: text('words'),
  },
  (table) => [primaryKey({ columns: [table.heatId, table.personId, table.cautionId] })],
);

export const solderHistory = sqliteTable('solder_history', {
  id: text('id').primaryKey(),
  pieceId: text('piece_id').notNull(),
  jointId: text('joint_id').notNull(),
  heatId: text('heat_id').notNull(),
  productId: text('product_id').notNull(),
  lotId: text('lot_id').notNull(),
  solidusC: real('solidus_c').notNull(),
  liquidusC: real('liquidus_c').notNull(),
  tenthMg: integer('tenth_mg').notNull(),
  outcome: text('outcome').notNull(),
  at: text('at').notNull(),
});

export const stockMovements = sqliteTable('stock_movements', {
  id: text('id').primaryKey(),
  kind: text('kind').$type<MovementKind>().notNull(),
  productId: text('product_id').notNull(),
  lotId: text('lot_id'),
  onHandTenthMg: integer('on_hand_tenth_mg').notNull(),
  heldTenthMg: integer('held_tenth_mg').notNull(),
  reason: text('reason'),
  pieceId: text('piece_id'),
  heatId: text('heat_id'),
  reversesId: text('reverses_id').unique(),
  at: text('at').notNull(),
  recordedAt: text('recorded_at').notNull(),
  personId: text('person_id'),
});

export const quotes = sqliteTable('quotes', {
  id: text('id').primaryKey(),
  commissionId: text('commission_id').notNull(),
  number: integer('number').notNull(),
  state: text('state').notNull(),
  stateReason: text('state_reason'),
  recipe: integer('recipe').notNull(),
  overrides: text('overrides', { mode: 'json' }).$type<Record<string, unknown>>().notNull(),
  request: text('request', { mode: 'json' }).$type<EstimateRequest>().notNull(),
  answer: text('answer', { mode: 'json' }).$type<Estimate>().notNull(),
  currency: text('currency').notNull(),
  netMinor: integer('net_minor').notNull(),
  grossMinor: integer('gross_minor').notNull(),
  depositMinor: integer('deposit_minor').notNull(),
  finePricePerG: text('fine_price_per_g').notNull(),
  finePriceAt: text('fine_price_at').notNull(),
  placeOfSale: text('place_of_sale'),
  validUntil: text('valid_until').notNull(),
  sentAt: text('sent_at'),
  answeredAt: text('answered_at'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const payments = sqliteTable('payments', {
  id: text('id').primaryKey(),
  commissionId: text('commission_id').notNull(),
  kind: text('kind').notNull(),
  amountMinor: integer('amount_minor').notNull(),
  currency: text('currency').notNull(),
  how: text('how').notNull(),
  receivedOn: text('received_on'),
  reason: text('reason'),
  personId: text('person_id').notNull(),
  createdAt: text('created_at').notNull(),
  state: text('state').notNull(),
  dueOn: text('due_on'),
  /** Of money sent back: the payment it belongs to. */
  returnsId: text('returns_id'),
  version: integer('version').notNull().default(1),
});

export const incidents = sqliteTable('incidents', {
  id: text('id').primaryKey(),
  pieceId: text('piece_id').notNull(),
  heatId: text('heat_id'),
  jointId: text('joint_id'),
  kind: text('kind').notNull(),
  likelyCause: text('likely_cause'),
  note: text('note'),
  state: text('state').notNull(),
  howEnded: text('how_ended'),
  clientTold: integer('client_told', { mode: 'boolean' }),
  minutesLost: integer('minutes_lost'),
  solderUsedTenthMg: integer('solder_used_tenth_mg'),
  seenBy: text('seen_by').notNull(),
  seenAt: text('seen_at').notNull(),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});
