-- Metal kept for pieces, and the safety sheets of solder as files.

CREATE TABLE metal_holds (
  id TEXT PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('hold', 'issue', 'reverse', 'free')),
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  metal TEXT NOT NULL,
  -- What the parts are cut from; null: nothing that is bought is of their sizes.
  product_id TEXT REFERENCES metal_products (id),
  held_tenth_mg INTEGER NOT NULL,
  -- The issue that took it, or the reversal that gave it back.
  movement_id TEXT REFERENCES metal_movements (id),
  at TEXT NOT NULL,
  recorded_at TEXT NOT NULL,
  person_id TEXT REFERENCES people (id),
  CHECK ((kind IN ('issue', 'reverse')) = (movement_id IS NOT NULL))
) STRICT;
CREATE INDEX metal_holds_piece ON metal_holds (piece_id);
CREATE INDEX metal_holds_movement ON metal_holds (movement_id) WHERE movement_id IS NOT NULL;
CREATE TRIGGER metal_holds_never_change BEFORE UPDATE ON metal_holds BEGIN SELECT RAISE(ABORT, 'holds are append-only'); END;
CREATE TRIGGER metal_holds_never_shrink BEFORE DELETE ON metal_holds BEGIN SELECT RAISE(ABORT, 'holds are append-only'); END;

CREATE TABLE safety_sheets (
  product_id TEXT PRIMARY KEY REFERENCES solder_products (id),
  media_type TEXT NOT NULL CHECK (media_type IN ('application/pdf', 'image/png', 'image/jpeg')),
  sha256 TEXT NOT NULL,
  bytes BLOB NOT NULL,
  person_id TEXT REFERENCES people (id),
  created_at TEXT NOT NULL
) STRICT;
