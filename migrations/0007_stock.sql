-- Suppliers and what is ordered from them, counts, metal, pickle baths, scrap.

CREATE TABLE suppliers (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL UNIQUE COLLATE NOCASE,
  minimum_minor INTEGER NOT NULL DEFAULT 0 CHECK (minimum_minor >= 0),
  post_minor INTEGER NOT NULL DEFAULT 0 CHECK (post_minor >= 0),
  lead_working_days INTEGER NOT NULL CHECK (lead_working_days BETWEEN 0 AND 180),
  note TEXT,
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;

CREATE TABLE metal_products (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL UNIQUE,
  metal TEXT NOT NULL,
  density_g_per_cm3 REAL NOT NULL CHECK (density_g_per_cm3 > 0),
  fineness_fraction REAL NOT NULL CHECK (fineness_fraction BETWEEN 0 AND 1),
  form TEXT NOT NULL CHECK (json_valid(form)),
  entered TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(entered)),
  supplier TEXT NOT NULL,
  pack_g REAL NOT NULL CHECK (pack_g > 0),
  price TEXT NOT NULL CHECK (json_valid(price)),
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX metal_products_metal ON metal_products (metal, id);
CREATE INDEX metal_products_active ON metal_products (active, id);

CREATE TABLE supplier_orders (
  id TEXT PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  supplier_id TEXT NOT NULL REFERENCES suppliers (id),
  state TEXT NOT NULL,
  state_reason TEXT,
  sent_on TEXT,
  promised_on TEXT,
  invoice_minor INTEGER,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX supplier_orders_supplier ON supplier_orders (supplier_id, id);
CREATE INDEX supplier_orders_state ON supplier_orders (state, id);

CREATE TABLE supplier_order_lines (
  id TEXT PRIMARY KEY,
  order_id TEXT NOT NULL REFERENCES supplier_orders (id),
  position INTEGER NOT NULL,
  product_id TEXT REFERENCES solder_products (id),
  metal_product_id TEXT REFERENCES metal_products (id),
  tenth_mg INTEGER NOT NULL CHECK (tenth_mg > 0),
  price_per_g TEXT NOT NULL,
  closed_short INTEGER NOT NULL DEFAULT 0 CHECK (closed_short IN (0, 1)),
  UNIQUE (order_id, position),
  CHECK ((product_id IS NULL) <> (metal_product_id IS NULL))
) STRICT;
CREATE INDEX supplier_order_lines_product ON supplier_order_lines (product_id);

ALTER TABLE solder_lots ADD COLUMN order_line_id TEXT REFERENCES supplier_order_lines (id);
CREATE INDEX solder_lots_order_line ON solder_lots (order_line_id) WHERE order_line_id IS NOT NULL;

CREATE TABLE metal_lots (
  id TEXT PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  product_id TEXT NOT NULL REFERENCES metal_products (id),
  -- Metal that a client left for one commission is never ours.
  commission_id TEXT REFERENCES commissions (id),
  received_on TEXT NOT NULL,
  received_tenth_mg INTEGER NOT NULL CHECK (received_tenth_mg > 0),
  unit_cost_per_g TEXT NOT NULL,
  order_line_id TEXT REFERENCES supplier_order_lines (id),
  note TEXT,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX metal_lots_product ON metal_lots (product_id, id);
CREATE INDEX metal_lots_commission ON metal_lots (commission_id, id);

CREATE TABLE metal_movements (
  id TEXT PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('receive', 'issue', 'put_back', 'scrap', 'count_up', 'count_down', 'write_off', 'reverse')),
  lot_id TEXT NOT NULL REFERENCES metal_lots (id),
  on_hand_tenth_mg INTEGER NOT NULL,
  piece_id TEXT REFERENCES pieces (id),
  reason TEXT,
  reverses_id TEXT UNIQUE REFERENCES metal_movements (id),
  at TEXT NOT NULL,
  recorded_at TEXT NOT NULL,
  person_id TEXT REFERENCES people (id),
  CHECK (kind <> 'issue' OR piece_id IS NOT NULL)
) STRICT;
CREATE INDEX metal_movements_lot ON metal_movements (lot_id);
CREATE INDEX metal_movements_piece ON metal_movements (piece_id);
CREATE TRIGGER metal_movements_never_change BEFORE UPDATE ON metal_movements BEGIN SELECT RAISE(ABORT, 'metal movements are append-only'); END;
CREATE TRIGGER metal_movements_never_shrink BEFORE DELETE ON metal_movements BEGIN SELECT RAISE(ABORT, 'metal movements are append-only'); END;

CREATE TABLE stocktakes (
  id TEXT PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  state TEXT NOT NULL,
  state_reason TEXT,
  -- The books are closed up to here, once it is posted.
  closed_at TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX stocktakes_state ON stocktakes (state, id);

CREATE TABLE stocktake_counts (
  id TEXT PRIMARY KEY,
  stocktake_id TEXT NOT NULL REFERENCES stocktakes (id),
  solder_lot_id TEXT REFERENCES solder_lots (id),
  metal_lot_id TEXT REFERENCES metal_lots (id),
  counted_tenth_mg INTEGER CHECK (counted_tenth_mg >= 0),
  -- What the book had at that moment, and what had been used since the count before.
  book_tenth_mg INTEGER,
  used_tenth_mg INTEGER,
  reason TEXT,
  counted_at TEXT,
  counted_by TEXT REFERENCES people (id),
  UNIQUE (stocktake_id, solder_lot_id),
  UNIQUE (stocktake_id, metal_lot_id),
  CHECK ((solder_lot_id IS NULL) <> (metal_lot_id IS NULL))
) STRICT;

CREATE TABLE pickle_baths (
  id TEXT PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  acid TEXT NOT NULL CHECK (acid IN ('bisulphate', 'citric', 'sulphuric', 'other')),
  volume_l REAL NOT NULL CHECK (volume_l > 0),
  strength_g_per_l REAL NOT NULL CHECK (strength_g_per_l > 0),
  copper_limit_g_per_l REAL NOT NULL CHECK (copper_limit_g_per_l > 0),
  opened_on TEXT NOT NULL,
  state TEXT NOT NULL,
  state_reason TEXT,
  blushes INTEGER NOT NULL DEFAULT 0,
  ph REAL CHECK (ph BETWEEN 0 AND 14),
  neutralised_on TEXT,
  gone_to TEXT,
  gone_on TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX pickle_baths_state ON pickle_baths (state, id);

CREATE TABLE bath_dips (
  id TEXT PRIMARY KEY,
  bath_id TEXT NOT NULL REFERENCES pickle_baths (id),
  heat_id TEXT NOT NULL UNIQUE REFERENCES heats (id),
  area_cm2 REAL NOT NULL,
  copper_g REAL NOT NULL,
  acid_g REAL,
  bath_c REAL,
  at TEXT NOT NULL,
  recorded_at TEXT NOT NULL,
  person_id TEXT REFERENCES people (id)
) STRICT;
CREATE INDEX bath_dips_bath ON bath_dips (bath_id, id);
CREATE TRIGGER bath_dips_never_change BEFORE UPDATE ON bath_dips BEGIN SELECT RAISE(ABORT, 'dips are append-only'); END;
CREATE TRIGGER bath_dips_never_shrink BEFORE DELETE ON bath_dips BEGIN SELECT RAISE(ABORT, 'dips are append-only'); END;

CREATE TABLE scrap_returns (
  id TEXT PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  jar TEXT NOT NULL CHECK (jar IN ('filings', 'offcuts', 'sweep', 'solder_bearing')),
  refiner TEXT NOT NULL,
  weighed_tenth_mg INTEGER NOT NULL CHECK (weighed_tenth_mg > 0),
  expected_fine_tenth_mg INTEGER,
  sent_on TEXT NOT NULL,
  settlement TEXT CHECK (settlement IS NULL OR json_valid(settlement)),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX scrap_returns_jar ON scrap_returns (jar, id);

CREATE TABLE scrap_return_pieces (
  return_id TEXT NOT NULL REFERENCES scrap_returns (id),
  jar TEXT NOT NULL,
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  expected_fine_tenth_mg INTEGER NOT NULL,
  PRIMARY KEY (jar, piece_id)
) STRICT;
