/**
 * Sums of the ledgers as they are now, kept by triggers; costs reckoned up to a line of them and what supplies come to, kept by the program.
 */

import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { CostMethod, CostState } from '../../../shared/stock/cost-ledger.ts';

export type CostedLedger = 'solder' | 'metal';

export const nowSolderLots = sqliteTable('now_solder_lots', {
  lotId: text('lot_id').primaryKey(),
  onHandTenthMg: integer('on_hand_tenth_mg').notNull(),
});

export const nowSolderProducts = sqliteTable('now_solder_products', {
  productId: text('product_id').primaryKey(),
  heldTenthMg: integer('held_tenth_mg').notNull(),
});

export const nowSolderPieces = sqliteTable(
  'now_solder_pieces',
  {
    pieceId: text('piece_id').notNull(),
    productId: text('product_id').notNull(),
    usedTenthMg: integer('used_tenth_mg').notNull(),
    heldTenthMg: integer('held_tenth_mg').notNull(),
  },
  (table) => [primaryKey({ columns: [table.pieceId, table.productId] })],
);

export const nowMetalLots = sqliteTable('now_metal_lots', {
  lotId: text('lot_id').primaryKey(),
  onHandTenthMg: integer('on_hand_tenth_mg').notNull(),
});

export const nowMetalHolds = sqliteTable(
  'now_metal_holds',
  {
    pieceId: text('piece_id').notNull(),
    metal: text('metal').notNull(),
    /** Empty: nothing that is bought is of their sizes. */
    cutFrom: text('cut_from').notNull(),
    heldTenthMg: integer('held_tenth_mg').notNull(),
    firstLine: integer('first_line').notNull(),
  },
  (table) => [primaryKey({ columns: [table.pieceId, table.metal, table.cutFrom] })],
);

export const nowCosts = sqliteTable('now_costs', {
  ledger: text('ledger').$type<CostedLedger>().primaryKey(),
  method: text('method').$type<CostMethod>().notNull(),
  /** By product. */
  states: text('states', { mode: 'json' }).$type<Record<string, CostState>>().notNull(),
  lastLine: integer('last_line').notNull(),
});

export const nowLineCosts = sqliteTable(
  'now_line_costs',
  {
    ledger: text('ledger').$type<CostedLedger>().notNull(),
    movementId: text('movement_id').notNull(),
    cost: text('cost').notNull(),
  },
  (table) => [primaryKey({ columns: [table.ledger, table.movementId] })],
);

export const nowSupplies = sqliteTable('now_supplies', {
  supplyId: text('supply_id').primaryKey(),
  onHandUnits: integer('on_hand_units').notNull(),
  /** Used, and not put back. */
  outUnits: integer('out_units').notNull(),
  /** A decimal for a gram or a piece. */
  averageCost: text('average_cost'),
});
