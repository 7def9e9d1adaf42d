-- The book: people, clients, commissions, pieces, plans, heats, solder, time, money.
-- Times are RFC 3339 UTC text, dates ISO 8601 text, masses on hand integers of 0.1 mg, money integer minor units.

CREATE TABLE people (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  sign_in_name TEXT UNIQUE,
  password_hash TEXT,
  roles TEXT NOT NULL CHECK (json_valid(roles)),
  tutor INTEGER NOT NULL DEFAULT 0 CHECK (tutor IN (0, 1)),
  rate_per_hour TEXT,
  bench_minutes_per_day INTEGER,
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;

CREATE TABLE sessions (
  id TEXT PRIMARY KEY,
  person_id TEXT NOT NULL REFERENCES people (id),
  token_hash TEXT NOT NULL UNIQUE,
  created_at TEXT NOT NULL,
  expires_at TEXT NOT NULL,
  revoked_at TEXT
) STRICT;

CREATE TABLE tokens (
  id TEXT PRIMARY KEY,
  person_id TEXT NOT NULL REFERENCES people (id),
  name TEXT NOT NULL,
  token_hash TEXT NOT NULL UNIQUE,
  created_at TEXT NOT NULL,
  revoked_at TEXT
) STRICT;

CREATE TABLE settings (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  body TEXT NOT NULL CHECK (json_valid(body)),
  version INTEGER NOT NULL,
  updated_at TEXT NOT NULL
) STRICT;

CREATE TABLE journal (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  at TEXT NOT NULL,
  person_id TEXT REFERENCES people (id),
  device_id TEXT,
  what TEXT NOT NULL,
  thing_id TEXT NOT NULL,
  before TEXT CHECK (before IS NULL OR json_valid(before)),
  after TEXT CHECK (after IS NULL OR json_valid(after)),
  confirmed TEXT CHECK (confirmed IS NULL OR json_valid(confirmed))
) STRICT;
CREATE INDEX journal_thing ON journal (thing_id, seq);
CREATE TRIGGER journal_never_changes BEFORE UPDATE ON journal BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER journal_never_shrinks BEFORE DELETE ON journal BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TABLE idempotency_keys (
  person_id TEXT NOT NULL REFERENCES people (id),
  key TEXT NOT NULL,
  request_hash TEXT NOT NULL,
  status INTEGER NOT NULL,
  reply TEXT NOT NULL CHECK (json_valid(reply)),
  created_at TEXT NOT NULL,
  PRIMARY KEY (person_id, key)
) STRICT;

CREATE TABLE counters (
  name TEXT PRIMARY KEY,
  last INTEGER NOT NULL
) STRICT;

CREATE TABLE clients (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  email TEXT,
  phone TEXT,
  language TEXT NOT NULL,
  post_address TEXT,
  ring_size_mm REAL,
  metal_sensitivity TEXT,
  photo_allowed INTEGER NOT NULL DEFAULT 0 CHECK (photo_allowed IN (0, 1)),
  notes TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  CHECK (email IS NOT NULL OR phone IS NOT NULL)
) STRICT;

CREATE TABLE commissions (
  id TEXT PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  title TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('one_off', 'small_run', 'own_stock', 'repair', 'teaching_piece')),
  client_id TEXT REFERENCES clients (id),
  wish TEXT,
  quantity INTEGER NOT NULL CHECK (quantity BETWEEN 1 AND 500),
  due_on TEXT,
  budget_minor INTEGER,
  place_of_sale TEXT,
  client_property TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(client_property)),
  points_to_piece_id TEXT REFERENCES pieces (id),
  quiet INTEGER NOT NULL DEFAULT 0 CHECK (quiet IN (0, 1)),
  state TEXT NOT NULL,
  state_reason TEXT,
  state_since TEXT NOT NULL,
  waiting_for TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX commissions_state ON commissions (state, id);
CREATE INDEX commissions_client ON commissions (client_id);

CREATE TABLE pieces (
  id TEXT PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  commission_id TEXT NOT NULL REFERENCES commissions (id),
  serial INTEGER NOT NULL CHECK (serial BETWEEN 1 AND 500),
  title TEXT NOT NULL,
  metal TEXT NOT NULL,
  state TEXT NOT NULL,
  state_before_aside TEXT,
  state_reason TEXT,
  whereabouts TEXT NOT NULL CHECK (whereabouts IN ('bench', 'safe', 'away', 'with_client', 'unknown')),
  metal_issued_tenth_mg INTEGER,
  metal_returned_tenth_mg INTEGER,
  weighed_tenth_mg INTEGER,
  built_by TEXT REFERENCES people (id),
  remake_of_piece_id TEXT UNIQUE REFERENCES pieces (id),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  UNIQUE (commission_id, serial)
) STRICT;

CREATE TABLE designs (
  id TEXT PRIMARY KEY,
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  number INTEGER NOT NULL,
  body TEXT NOT NULL CHECK (json_valid(body)),
  entered TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(entered)),
  made_by TEXT NOT NULL REFERENCES people (id),
  created_at TEXT NOT NULL,
  UNIQUE (piece_id, number)
) STRICT;

CREATE TABLE plans (
  id TEXT PRIMARY KEY,
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  number INTEGER NOT NULL,
  state TEXT NOT NULL,
  design_id TEXT NOT NULL REFERENCES designs (id),
  origin TEXT NOT NULL CHECK (origin IN ('by_hand', 'found')),
  body TEXT NOT NULL CHECK (json_valid(body)),
  made_joints TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(made_joints)),
  bench TEXT NOT NULL CHECK (json_valid(bench)),
  solders TEXT NOT NULL CHECK (json_valid(solders)),
  check_result TEXT CHECK (check_result IS NULL OR json_valid(check_result)),
  search_result TEXT CHECK (search_result IS NULL OR json_valid(search_result)),
  made_by TEXT NOT NULL REFERENCES people (id),
  signed_by TEXT REFERENCES people (id),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  UNIQUE (piece_id, number)
) STRICT;
CREATE UNIQUE INDEX plans_one_in_use ON plans (piece_id) WHERE state = 'in_use';

CREATE TABLE solder_products (
  id TEXT PRIMARY KEY,
  code TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  grade_word TEXT NOT NULL,
  solidus_c REAL NOT NULL,
  liquidus_c REAL NOT NULL,
  silver_fraction REAL,
  cadmium_standing TEXT NOT NULL CHECK (cadmium_standing IN ('no', 'yes', 'unknown')),
  lead_or_tin_standing TEXT NOT NULL CHECK (lead_or_tin_standing IN ('no', 'yes', 'unknown')),
  form TEXT NOT NULL CHECK (form IN ('sheet', 'wire', 'paste', 'pallion', 'rod', 'powder')),
  metal_fraction REAL NOT NULL,
  density_g_per_cm3 REAL NOT NULL,
  smallest_piece_g REAL NOT NULL,
  safety_sheet TEXT NOT NULL,
  supplier TEXT NOT NULL,
  pack_g REAL NOT NULL,
  price_per_g TEXT NOT NULL,
  lead_weeks INTEGER NOT NULL,
  cadmium_document TEXT CHECK (cadmium_document IS NULL OR json_valid(cadmium_document)),
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  CHECK (solidus_c <= liquidus_c)
) STRICT;

CREATE TABLE solder_lots (
  id TEXT PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  product_id TEXT NOT NULL REFERENCES solder_products (id),
  received_on TEXT NOT NULL,
  received_tenth_mg INTEGER NOT NULL CHECK (received_tenth_mg > 0),
  unit_cost_per_g TEXT NOT NULL,
  mark_on_metal TEXT,
  use_by TEXT,
  cadmium_standing TEXT NOT NULL CHECK (cadmium_standing IN ('no', 'yes', 'unknown')),
  cadmium_document TEXT CHECK (cadmium_document IS NULL OR json_valid(cadmium_document)),
  state TEXT NOT NULL,
  state_reason TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX solder_lots_product ON solder_lots (product_id, id);

CREATE TABLE heats (
  id TEXT PRIMARY KEY,
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  plan_id TEXT NOT NULL REFERENCES plans (id),
  number INTEGER NOT NULL,
  position INTEGER NOT NULL,
  joints TEXT NOT NULL CHECK (json_valid(joints)),
  purpose TEXT NOT NULL CHECK (purpose IN ('solder', 'anneal')),
  product_id TEXT REFERENCES solder_products (id),
  lot_id TEXT REFERENCES solder_lots (id),
  planned_tenth_mg INTEGER NOT NULL,
  used_tenth_mg INTEGER,
  state TEXT NOT NULL,
  readiness TEXT CHECK (readiness IS NULL OR json_valid(readiness)),
  outcome TEXT,
  seen TEXT,
  primed_by TEXT REFERENCES people (id),
  lit_by TEXT REFERENCES people (id),
  alight_at TEXT,
  ended_at TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  UNIQUE (piece_id, number)
) STRICT;
CREATE INDEX heats_plan ON heats (plan_id, position);
CREATE INDEX heats_state ON heats (state);

CREATE TABLE joints (
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  joint_id TEXT NOT NULL,
  state TEXT NOT NULL,
  heat_id TEXT REFERENCES heats (id),
  solder TEXT CHECK (solder IS NULL OR json_valid(solder)),
  cadmium_standing TEXT NOT NULL DEFAULT 'no' CHECK (cadmium_standing IN ('no', 'yes', 'unknown')),
  cadmium_document TEXT CHECK (cadmium_document IS NULL OR json_valid(cadmium_document)),
  PRIMARY KEY (piece_id, joint_id)
) STRICT;

CREATE TABLE caution_ticks (
  heat_id TEXT NOT NULL REFERENCES heats (id),
  person_id TEXT NOT NULL REFERENCES people (id),
  caution_id TEXT NOT NULL,
  at TEXT NOT NULL,
  PRIMARY KEY (heat_id, person_id, caution_id)
) STRICT;
CREATE INDEX caution_ticks_person ON caution_ticks (person_id, caution_id, at);

CREATE TABLE solder_history (
  id TEXT PRIMARY KEY,
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  joint_id TEXT NOT NULL,
  heat_id TEXT NOT NULL REFERENCES heats (id),
  product_id TEXT NOT NULL REFERENCES solder_products (id),
  lot_id TEXT NOT NULL REFERENCES solder_lots (id),
  solidus_c REAL NOT NULL,
  liquidus_c REAL NOT NULL,
  tenth_mg INTEGER NOT NULL,
  outcome TEXT NOT NULL CHECK (outcome IN ('sound', 'spoilt')),
  at TEXT NOT NULL
) STRICT;
CREATE INDEX solder_history_piece ON solder_history (piece_id, id);

CREATE TABLE stock_movements (
  id TEXT PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('receive', 'use', 'put_back', 'scrap', 'count_up', 'count_down', 'write_off', 'hold', 'free', 'reverse')),
  product_id TEXT NOT NULL REFERENCES solder_products (id),
  lot_id TEXT REFERENCES solder_lots (id),
  on_hand_tenth_mg INTEGER NOT NULL,
  held_tenth_mg INTEGER NOT NULL,
  reason TEXT,
  piece_id TEXT REFERENCES pieces (id),
  heat_id TEXT REFERENCES heats (id),
  reverses_id TEXT UNIQUE REFERENCES stock_movements (id),
  at TEXT NOT NULL,
  recorded_at TEXT NOT NULL,
  person_id TEXT REFERENCES people (id),
  CHECK (kind IN ('hold', 'free') OR lot_id IS NOT NULL OR reverses_id IS NOT NULL)
) STRICT;
CREATE INDEX stock_movements_lot ON stock_movements (lot_id);
CREATE INDEX stock_movements_product ON stock_movements (product_id, at);
CREATE INDEX stock_movements_piece ON stock_movements (piece_id);
CREATE TRIGGER stock_movements_never_change BEFORE UPDATE ON stock_movements BEGIN SELECT RAISE(ABORT, 'stock movements are append-only'); END;
CREATE TRIGGER stock_movements_never_shrink BEFORE DELETE ON stock_movements BEGIN SELECT RAISE(ABORT, 'stock movements are append-only'); END;

CREATE TABLE quotes (
  id TEXT PRIMARY KEY,
  commission_id TEXT NOT NULL REFERENCES commissions (id),
  number INTEGER NOT NULL,
  state TEXT NOT NULL,
  state_reason TEXT,
  recipe INTEGER NOT NULL,
  overrides TEXT NOT NULL CHECK (json_valid(overrides)),
  request TEXT NOT NULL CHECK (json_valid(request)),
  answer TEXT NOT NULL CHECK (json_valid(answer)),
  currency TEXT NOT NULL,
  net_minor INTEGER NOT NULL,
  gross_minor INTEGER NOT NULL,
  deposit_minor INTEGER NOT NULL,
  fine_price_per_g TEXT NOT NULL,
  fine_price_at TEXT NOT NULL,
  place_of_sale TEXT,
  valid_until TEXT NOT NULL,
  sent_at TEXT,
  answered_at TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  UNIQUE (commission_id, number)
) STRICT;
CREATE UNIQUE INDEX quotes_one_accepted ON quotes (commission_id) WHERE state = 'accepted';

CREATE TABLE payments (
  id TEXT PRIMARY KEY,
  commission_id TEXT NOT NULL REFERENCES commissions (id),
  kind TEXT NOT NULL CHECK (kind IN ('deposit', 'stage', 'balance', 'send_back')),
  amount_minor INTEGER NOT NULL CHECK (amount_minor > 0),
  currency TEXT NOT NULL,
  how TEXT NOT NULL CHECK (how IN ('cash', 'card', 'transfer', 'other')),
  received_on TEXT NOT NULL,
  reason TEXT,
  person_id TEXT NOT NULL REFERENCES people (id),
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX payments_commission ON payments (commission_id);

CREATE TABLE incidents (
  id TEXT PRIMARY KEY,
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  heat_id TEXT REFERENCES heats (id),
  joint_id TEXT,
  kind TEXT NOT NULL,
  likely_cause TEXT,
  note TEXT,
  state TEXT NOT NULL,
  how_ended TEXT,
  client_told INTEGER CHECK (client_told IN (0, 1)),
  minutes_lost INTEGER,
  solder_used_tenth_mg INTEGER,
  seen_by TEXT NOT NULL REFERENCES people (id),
  seen_at TEXT NOT NULL,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX incidents_piece ON incidents (piece_id);

CREATE TABLE bench_times (
  id TEXT PRIMARY KEY,
  person_id TEXT NOT NULL REFERENCES people (id),
  piece_id TEXT REFERENCES pieces (id),
  heat_id TEXT REFERENCES heats (id),
  operation TEXT NOT NULL,
  started_at TEXT NOT NULL,
  stopped_at TEXT,
  minutes_by_hand INTEGER,
  rate_per_hour TEXT NOT NULL,
  state TEXT NOT NULL,
  note TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE UNIQUE INDEX bench_times_one_running ON bench_times (person_id) WHERE state = 'running';
CREATE INDEX bench_times_piece ON bench_times (piece_id);
