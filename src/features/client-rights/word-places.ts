/** Where words about a client may stand. */
export interface WordPlace {
  table: string;
  columns: readonly string[];
  /** Columns that hold JSON. */
  json?: readonly string[];
  /** The column that says of what a row is; a row is the client's where that is theirs. */
  of: string;
}

/**
 * Everywhere somebody types, or an answer with what was typed is kept. What a trade knows of its own things (designs, plans, heats,
 * solders, stock) has no words about people; a test looks for a forgotten client in the whole file.
 */
export const WORD_PLACES: readonly WordPlace[] = [
  { table: 'clients', columns: ['notes'], of: 'id' },
  { table: 'commissions', columns: ['title', 'wish', 'state_reason'], json: ['client_property'], of: 'id' },
  { table: 'pieces', columns: ['title', 'state_reason'], of: 'commission_id' },
  { table: 'quotes', columns: ['state_reason'], json: ['overrides', 'request', 'answer'], of: 'commission_id' },
  { table: 'sent_letters', columns: [], json: ['paper'], of: 'quote_id' },
  { table: 'payments', columns: ['reason'], of: 'commission_id' },
  { table: 'client_letters', columns: ['note'], of: 'commission_id' },
  { table: 'client_messages', columns: ['words'], of: 'commission_id' },
  { table: 'private_links', columns: ['state_reason'], of: 'commission_id' },
  { table: 'photos', columns: ['caption'], of: 'commission_id' },
  { table: 'heats', columns: ['seen', 'outcome'], of: 'piece_id' },
  { table: 'joints', columns: [], json: ['cadmium_document'], of: 'piece_id' },
  { table: 'incidents', columns: ['note', 'how_ended', 'likely_cause'], of: 'piece_id' },
  { table: 'bench_times', columns: ['note'], of: 'piece_id' },
  { table: 'metal_lots', columns: ['note'], of: 'commission_id' },
  { table: 'stock_movements', columns: ['reason'], of: 'piece_id' },
  { table: 'metal_movements', columns: ['reason'], of: 'piece_id' },
  { table: 'supply_movements', columns: ['reason'], of: 'id' },
  { table: 'hallmark_packets', columns: ['state_reason'], of: 'id' },
  { table: 'supplier_orders', columns: ['state_reason'], of: 'id' },
  { table: 'stocktakes', columns: ['state_reason'], of: 'id' },
  { table: 'suppliers', columns: ['note'], of: 'id' },
  { table: 'absences', columns: ['reason'], of: 'id' },
  { table: 'journal', columns: [], json: ['before', 'after', 'confirmed'], of: 'thing_id' },
  { table: 'idempotency_keys', columns: [], json: ['reply'], of: 'reply' },
  { table: 'bench_steps', columns: [], json: ['answer'], of: 'answer' },
];
