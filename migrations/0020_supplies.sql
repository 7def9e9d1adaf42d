-- What is used up beside solder and metal: flux, pickle salt and gas by weight, findings and stones by count.
-- Every quantity is a whole number of units: 0.1 mg where it goes by the gram, else pieces.
CREATE TABLE supplies (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL UNIQUE COLLATE NOCASE,
  kind TEXT NOT NULL CHECK (kind IN ('flux', 'pickle_salt', 'gas', 'finding', 'stone', 'other')),
  unit TEXT NOT NULL CHECK (unit IN ('g', 'piece')),
  -- A decimal for a gram or a piece, in the currency of the studio.
  price TEXT,
  supplier TEXT,
  pack_units INTEGER NOT NULL CHECK (pack_units > 0),
  order_point_units INTEGER CHECK (order_point_units >= 0),
  -- Where the sheet is kept.
  safety_sheet TEXT,
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  CHECK (kind NOT IN ('flux', 'pickle_salt', 'gas') OR unit = 'g')
) STRICT;
CREATE INDEX supplies_kind ON supplies (kind, id);

CREATE TABLE supply_movements (
  id TEXT PRIMARY KEY,
  supply_id TEXT NOT NULL REFERENCES supplies (id),
  kind TEXT NOT NULL CHECK (kind IN ('receive', 'use', 'put_back', 'count_up', 'count_down', 'write_off', 'reverse')),
  on_hand_units INTEGER NOT NULL CHECK (on_hand_units <> 0),
  unit_cost TEXT,
  reason TEXT,
  reverses_id TEXT UNIQUE REFERENCES supply_movements (id),
  person_id TEXT REFERENCES people (id),
  at TEXT NOT NULL,
  CHECK ((kind = 'receive') = (unit_cost IS NOT NULL)),
  CHECK ((kind = 'reverse') = (reverses_id IS NOT NULL)),
  CHECK (kind NOT IN ('receive', 'put_back', 'count_up') OR on_hand_units > 0),
  CHECK (kind NOT IN ('use', 'count_down', 'write_off') OR on_hand_units < 0)
) STRICT;
CREATE INDEX supply_movements_supply ON supply_movements (supply_id, id);
CREATE TRIGGER supply_movements_never_change BEFORE UPDATE ON supply_movements BEGIN SELECT RAISE(ABORT, 'supply movements are append-only'); END;
CREATE TRIGGER supply_movements_never_shrink BEFORE DELETE ON supply_movements BEGIN SELECT RAISE(ABORT, 'supply movements are append-only'); END;
