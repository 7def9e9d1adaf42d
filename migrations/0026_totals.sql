-- What lists and reports sum of the ledgers, kept as the ledgers grow, so that nobody waits until all of one is added up again. The
-- ledgers only grow: a line that comes in is counted by a trigger. Whoever rebuilds a ledger has to make its trigger again.

CREATE TABLE now_solder_lots (
  lot_id TEXT PRIMARY KEY REFERENCES solder_lots (id),
  on_hand_tenth_mg INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX now_solder_lots_some ON now_solder_lots (lot_id) WHERE on_hand_tenth_mg <> 0;

CREATE TABLE now_solder_products (
  product_id TEXT PRIMARY KEY REFERENCES solder_products (id),
  held_tenth_mg INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- What work on a piece took of a product, less what was put back or reversed, and what is held for it.
CREATE TABLE now_solder_pieces (
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  product_id TEXT NOT NULL REFERENCES solder_products (id),
  used_tenth_mg INTEGER NOT NULL,
  held_tenth_mg INTEGER NOT NULL,
  PRIMARY KEY (piece_id, product_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX now_solder_pieces_held ON now_solder_pieces (piece_id, product_id, held_tenth_mg) WHERE held_tenth_mg <> 0;
CREATE INDEX now_solder_pieces_most ON now_solder_pieces (product_id, used_tenth_mg + held_tenth_mg);

INSERT INTO now_solder_lots
  SELECT lot_id, sum(on_hand_tenth_mg) FROM stock_movements WHERE lot_id IS NOT NULL GROUP BY lot_id;
INSERT INTO now_solder_products
  SELECT product_id, sum(held_tenth_mg) FROM stock_movements GROUP BY product_id;
INSERT INTO now_solder_pieces
  SELECT line.piece_id, line.product_id,
    -sum(iif(line.kind IN ('use', 'scrap', 'put_back') AND reversal.id IS NULL, line.on_hand_tenth_mg, 0)), sum(line.held_tenth_mg)
  FROM stock_movements AS line LEFT JOIN stock_movements AS reversal ON reversal.reverses_id = line.id
  WHERE line.piece_id IS NOT NULL GROUP BY line.piece_id, line.product_id;

CREATE TRIGGER stock_movements_counted AFTER INSERT ON stock_movements BEGIN
  INSERT INTO now_solder_lots SELECT new.lot_id, new.on_hand_tenth_mg WHERE new.lot_id IS NOT NULL
    ON CONFLICT (lot_id) DO UPDATE SET on_hand_tenth_mg = on_hand_tenth_mg + excluded.on_hand_tenth_mg;
  INSERT INTO now_solder_products VALUES (new.product_id, new.held_tenth_mg)
    ON CONFLICT (product_id) DO UPDATE SET held_tenth_mg = held_tenth_mg + excluded.held_tenth_mg;
  INSERT INTO now_solder_pieces
    SELECT new.piece_id, new.product_id, iif(new.kind IN ('use', 'scrap', 'put_back'), -new.on_hand_tenth_mg, 0), new.held_tenth_mg
    WHERE new.piece_id IS NOT NULL
    ON CONFLICT (piece_id, product_id) DO UPDATE
      SET used_tenth_mg = used_tenth_mg + excluded.used_tenth_mg, held_tenth_mg = held_tenth_mg + excluded.held_tenth_mg;
  INSERT INTO now_solder_pieces
    SELECT piece_id, product_id, on_hand_tenth_mg, 0 FROM stock_movements
    WHERE id = new.reverses_id AND piece_id IS NOT NULL AND kind IN ('use', 'scrap', 'put_back')
    ON CONFLICT (piece_id, product_id) DO UPDATE SET used_tenth_mg = used_tenth_mg + excluded.used_tenth_mg;
END;

CREATE TABLE now_metal_lots (
  lot_id TEXT PRIMARY KEY REFERENCES metal_lots (id),
  on_hand_tenth_mg INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO now_metal_lots SELECT lot_id, sum(on_hand_tenth_mg) FROM metal_movements GROUP BY lot_id;
CREATE TRIGGER metal_movements_counted AFTER INSERT ON metal_movements BEGIN
  INSERT INTO now_metal_lots VALUES (new.lot_id, new.on_hand_tenth_mg)
    ON CONFLICT (lot_id) DO UPDATE SET on_hand_tenth_mg = on_hand_tenth_mg + excluded.on_hand_tenth_mg;
END;

-- Held of a metal for a piece, by what its parts are cut from; '': nothing that is bought is of their sizes.
CREATE TABLE now_metal_holds (
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  metal TEXT NOT NULL,
  cut_from TEXT NOT NULL,
  held_tenth_mg INTEGER NOT NULL,
  -- The first line of the ledger that held it.
  first_line INTEGER NOT NULL,
  PRIMARY KEY (piece_id, metal, cut_from)
) STRICT, WITHOUT ROWID;
CREATE INDEX now_metal_holds_open ON now_metal_holds (first_line) WHERE held_tenth_mg <> 0;
INSERT INTO now_metal_holds
  SELECT piece_id, metal, coalesce(product_id, ''), sum(held_tenth_mg), min(rowid) FROM metal_holds
  GROUP BY piece_id, metal, coalesce(product_id, '');
CREATE TRIGGER metal_holds_counted AFTER INSERT ON metal_holds BEGIN
  INSERT INTO now_metal_holds VALUES (new.piece_id, new.metal, coalesce(new.product_id, ''), new.held_tenth_mg, new.rowid)
    ON CONFLICT (piece_id, metal, cut_from) DO UPDATE SET held_tenth_mg = held_tenth_mg + excluded.held_tenth_mg;
END;

-- Up to a line of a ledger: what its lines cost, in the way the studio has chosen, and what was left then. Kept by the program
-- from time to time; what came later is reckoned from there.
CREATE TABLE now_costs (
  ledger TEXT PRIMARY KEY CHECK (ledger IN ('solder', 'metal')),
  method TEXT NOT NULL,
  -- By product.
  states TEXT NOT NULL CHECK (json_valid(states)),
  last_line INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE now_line_costs (
  ledger TEXT NOT NULL,
  movement_id TEXT NOT NULL,
  cost TEXT NOT NULL,
  PRIMARY KEY (ledger, movement_id)
) STRICT, WITHOUT ROWID;

-- Lists by an index for each of their filters, newest first; reports by the day they go by.
DROP INDEX stock_movements_lot;
CREATE INDEX stock_movements_lot ON stock_movements (lot_id, id);
CREATE INDEX stock_movements_of ON stock_movements (product_id, id);
DROP INDEX metal_movements_lot;
CREATE INDEX metal_movements_lot ON metal_movements (lot_id, id);
CREATE INDEX stock_movements_heat ON stock_movements (heat_id) WHERE heat_id IS NOT NULL;
CREATE INDEX commissions_created ON commissions (created_at);
CREATE INDEX quotes_answered ON quotes (answered_at, commission_id) WHERE state = 'accepted';
CREATE INDEX quotes_gross ON quotes (commission_id, gross_minor) WHERE state = 'accepted';
DROP INDEX payments_commission;
CREATE INDEX payments_commission ON payments (commission_id, received_on, kind, amount_minor);
CREATE INDEX quotes_sent ON quotes (sent_at) WHERE sent_at IS NOT NULL;
CREATE INDEX incidents_seen ON incidents (seen_at);
CREATE INDEX heats_ended ON heats (ended_at);
CREATE INDEX pieces_created ON pieces (created_at);
CREATE INDEX stock_movements_at ON stock_movements (at);
CREATE INDEX solder_history_at ON solder_history (at);
CREATE INDEX bath_dips_at ON bath_dips (at);
CREATE INDEX journal_handed_over ON journal (thing_id, at) WHERE what = 'commission' AND json_extract(after, '$.state') = 'handed_over';
CREATE INDEX journal_moved ON journal (seq) WHERE what = 'joint' AND 'moved' IN (json_extract(before, '$.state'), json_extract(after, '$.state'));
