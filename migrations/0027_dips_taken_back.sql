-- A dip that was counted in the wrong bath, or never was, is taken back with a reason; the dip itself stays as it was written.
CREATE TABLE dip_reversals (
  id TEXT PRIMARY KEY,
  dip_id TEXT NOT NULL UNIQUE REFERENCES bath_dips (id),
  reason TEXT NOT NULL CHECK (length(trim(reason)) > 0),
  at TEXT NOT NULL,
  person_id TEXT REFERENCES people (id)
) STRICT;
CREATE TRIGGER dip_reversals_never_change BEFORE UPDATE ON dip_reversals BEGIN SELECT RAISE(ABORT, 'reversals are append-only'); END;
CREATE TRIGGER dip_reversals_never_shrink BEFORE DELETE ON dip_reversals BEGIN SELECT RAISE(ABORT, 'reversals are append-only'); END;
