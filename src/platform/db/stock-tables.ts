/** Suppliers and orders, counts, metal, pickle baths and scrap. Solder itself is in the book's tables. */

import { blob, integer, primaryKey, real, sqliteTable, text, unique } from 'drizzle-orm/sqlite-core';
import type { MetalForm, MetalMovementKind, ScrapSettlement, UnitPriceTyped } from './json-columns.ts';

export const suppliers = sqliteTable('suppliers', {
  id: text('id').primaryKey(),
  name: text('name').notNull().unique(),
  minimumMinor: integer('minimum_minor').notNull().default(0),
  postMinor: integer('post_minor').notNull().default(0),
  leadWorkingDays: integer('lead_working_days').notNull(),
  note: text('note'),
  active: integer('active', { mode: 'boolean' }).notNull().default(true),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const metalProducts = sqliteTable('metal_products', {
  id: text('id').primaryKey(),
  name: text('name').notNull().unique(),
  metal: text('metal').notNull(),
  densityGPerCm3: real('density_g_per_cm3').notNull(),
  finenessFraction: real('fineness_fraction').notNull(),
  form: text('form', { mode: 'json' }).$type<MetalForm>().notNull(),
  entered: text('entered', { mode: 'json' }).$type<Record<string, string>>().notNull().default({}),
  supplier: text('supplier').notNull(),
  packG: real('pack_g').notNull(),
  price: text('price', { mode: 'json' }).$type<UnitPriceTyped>().notNull(),
  active: integer('active', { mode: 'boolean' }).notNull().default(true),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const supplierOrders = sqliteTable('supplier_orders', {
  id: text('id').primaryKey(),
  number: text('number').notNull().unique(),
  supplierId: text('supplier_id').notNull(),
  state: text('state').notNull(),
  stateReason: text('state_reason'),
  sentOn: text('sent_on'),
  promisedOn: text('promised_on'),
  invoiceMinor: integer('invoice_minor'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const supplierOrderLines = sqliteTable(
  'supplier_order_lines',
  {
    id: text('id').primaryKey(),
    orderId: text('order_id').notNull(),
    position: integer('position').notNull(),
    productId: text('product_id'),
    metalProductId: text('metal_product_id'),
    tenthMg: integer('tenth_mg').notNull(),
    pricePerG: text('price_per_g').notNull(),
    closedShort: integer('closed_short', { mode: 'boolean' }).notNull().default(false),
  },
  (table) => [unique().on(table.orderId, table.position)],
);

export const metalLots = sqliteTable('metal_lots', {
  id: text('id').primaryKey(),
  number: text('number').notNull().unique(),
  productId: text('product_id').notNull(),
  commissionId: text('commission_id'),
  receivedOn: text('received_on').notNull(),
  receivedTenthMg: integer('received_tenth_mg').notNull(),
  unitCostPerG: text('unit_cost_per_g').notNull(),
  orderLineId: text('order_line_id'),
  note: text('note'),
  createdAt: text('created_at').notNull(),
});

export const metalMovements = sqliteTable('metal_movements', {
  id: text('id').primaryKey(),
  kind: text('kind').$type<MetalMovementKind>().notNull(),
  lotId: text('lot_id').notNull(),
  onHandTenthMg: integer('on_hand_tenth_mg').notNull(),
  pieceId: text('piece_id'),
  reason: text('reason'),
  reversesId: text('reverses_id').unique(),
  at: text('at').notNull(),
  recordedAt: text('recorded_at').notNull(),
  personId: text('person_id'),
});

/** Metal kept for pieces; by what it is cut from, so apart from the lots it may come of. */
export const metalHolds = sqliteTable('metal_holds', {
  id: text('id').primaryKey(),
  kind: text('kind').$type<'hold' | 'issue' | 'reverse' | 'free'>().notNull(),
  pieceId: text('piece_id').notNull(),
  metal: text('metal').notNull(),
  productId: text('product_id'),
  heldTenthMg: integer('held_tenth_mg').notNull(),
  movementId: text('movement_id'),
  at: text('at').notNull(),
  recordedAt: text('recorded_at').notNull(),
  personId: text('person_id'),
});

export const safetySheets = sqliteTable('safety_sheets', {
  productId: text('product_id').primaryKey(),
  mediaType: text('media_type').$type<'application/pdf' | 'image/png' | 'image/jpeg'>().notNull(),
  sha256: text('sha256').notNull(),
  bytes: blob('bytes', { mode: 'buffer' }).notNull(),
  personId: text('person_id'),
  createdAt: text('created_at').notNull(),
});

export const stocktakes = sqliteTable('stocktakes', {
  id: text('id').primaryKey(),
  number: text('number').notNull().unique(),
  state: text('state').notNull(),
  stateReason: text('state_reason'),
  closedAt: text('closed_at'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const stocktakeCounts = sqliteTable(
  'stocktake_counts',
  {
    id: text('id').primaryKey(),
    stocktakeId: text('stocktake_id').notNull(),
    solderLotId: text('solder_lot_id'),
    metalLotId: text('metal_lot_id'),
    countedTenthMg: integer('counted_tenth_mg'),
    bookTenthMg: integer('book_tenth_mg'),
    usedTenthMg: integer('used_tenth_mg'),
    reason: text('reason'),
    countedAt: text('counted_at'),
    countedBy: text('counted_by'),
  },
  (table) => [unique().on(table.stocktakeId, table.solderLotId), unique().on(table.stocktakeId, table.metalLotId)],
);

export const pickleBaths = sqliteTable('pickle_baths', {
  id: text('id').primaryKey(),
  number: text('number').notNull().unique(),
  acid: text('acid').$type<'bisulphate' | 'citric' | 'sulphuric' | 'other'>().notNull(),
  volumeL: real('volume_l').notNull(),
  strengthGPerL: real('strength_g_per_l').notNull(),
  copperLimitGPerL: real('copper_limit_g_per_l').notNull(),
  openedOn: text('opened_on').notNull(),
  state: text('state').notNull(),
  stateReason: text('state_reason'),
  blushes: integer('blushes').notNull().default(0),
  ph: real('ph'),
  neutralisedOn: text('neutralised_on'),
  goneTo: text('gone_to'),
  goneOn: text('gone_on'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const bathDips = sqliteTable('bath_dips', {
  id: text('id').primaryKey(),
  bathId: text('bath_id').notNull(),
  heatId: text('heat_id').notNull().unique(),
  areaCm2: real('area_cm2').notNull(),
  copperG: real('copper_g').notNull(),
  acidG: real('acid_g'),
  bathC: real('bath_c'),
  at: text('at').notNull(),
  recordedAt: text('recorded_at').notNull(),
  personId: text('person_id'),
});

export const dipReversals = sqliteTable('dip_reversals', {
  id: text('id').primaryKey(),
  dipId: text('dip_id').notNull().unique(),
  reason: text('reason').notNull(),
  at: text('at').notNull(),
  personId: text('person_id'),
});

export const scrapReturns = sqliteTable('scrap_returns', {
  id: text('id').primaryKey(),
  number: text('number').notNull().unique(),
  jar: text('jar').$type<'filings' | 'offcuts' | 'sweep' | 'solder_bearing'>().notNull(),
  refiner: text('refiner').notNull(),
  weighedTenthMg: integer('weighed_tenth_mg').notNull(),
  expectedFineTenthMg: integer('expected_fine_tenth_mg'),
  sentOn: text('sent_on').notNull(),
  settlement: text('settlement', { mode: 'json' }).$type<ScrapSettlement>(),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
  takenBack: text('taken_back', { mode: 'json' }).$type<{ reason: string; at: string }>(),
});

export const scrapReturnPieces = sqliteTable(
  'scrap_return_pieces',
  {
    returnId: text('return_id').notNull(),
    jar: text('jar').notNull(),
    pieceId: text('piece_id').notNull(),
    expectedFineTenthMg: integer('expected_fine_tenth_mg').notNull(),
  },
  (table) => [primaryKey({ columns: [table.jar, table.pieceId] })],
);
