/** What places ask of silver, and the packets that go to be assayed and marked. */

import { integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const placeRules = sqliteTable('place_rules', {
  place: text('place').primaryKey(),
  office: text('office'),
  source: text('source').notNull(),
  markOverG: real('mark_over_g'),
  leastSolderFinenessFraction: real('least_solder_fineness_fraction'),
  toleranceWithoutSolderFraction: real('tolerance_without_solder_fraction'),
  toleranceWithSolderFraction: real('tolerance_with_solder_fraction'),
  addedMetalG: real('added_metal_g'),
  addedMetalFraction: real('added_metal_fraction'),
  taxRateFraction: real('tax_rate_fraction'),
  keepYears: integer('keep_years'),
  version: integer('version').notNull().default(1),
  updatedAt: text('updated_at').notNull(),
});

export const hallmarkPackets = sqliteTable('hallmark_packets', {
  id: text('id').primaryKey(),
  number: text('number').notNull().unique(),
  place: text('place').notNull(),
  office: text('office').notNull(),
  currency: text('currency').notNull(),
  feeMinor: integer('fee_minor').notNull(),
  postMinor: integer('post_minor').notNull(),
  perArticleMinor: integer('per_article_minor').notNull(),
  articles: integer('articles').notNull(),
  state: text('state').notNull(),
  stateReason: text('state_reason'),
  sentOn: text('sent_on'),
  backOn: text('back_on'),
  version: integer('version').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const hallmarkPacketPieces = sqliteTable(
  'hallmark_packet_pieces',
  {
    packetId: text('packet_id').notNull(),
    pieceId: text('piece_id').notNull(),
    parts: text('parts').notNull(),
    partMarksMinor: integer('part_marks_minor').notNull(),
    weighedTenthMg: integer('weighed_tenth_mg'),
    backTenthMg: integer('back_tenth_mg'),
    outcome: text('outcome'),
    marks: text('marks'),
  },
  (table) => [primaryKey({ columns: [table.packetId, table.pieceId] })],
);
