-- Pictures of the work, in the book itself: so the one file stays the whole book, and a picture is there whole or not at all.

CREATE TABLE photos (
  id TEXT PRIMARY KEY,
  commission_id TEXT NOT NULL REFERENCES commissions (id),
  piece_id TEXT REFERENCES pieces (id),
  heat_id TEXT REFERENCES heats (id),
  incident_id TEXT REFERENCES incidents (id),
  part TEXT,
  caption TEXT,
  taken_at TEXT NOT NULL,
  shows_person INTEGER NOT NULL CHECK (shows_person IN (0, 1)),
  client_may_see INTEGER NOT NULL DEFAULT 0 CHECK (client_may_see IN (0, 1)),
  width_px INTEGER NOT NULL CHECK (width_px >= 1),
  height_px INTEGER NOT NULL CHECK (height_px >= 1),
  -- Of the picture as it is kept.
  sha256 TEXT NOT NULL,
  added_by TEXT NOT NULL REFERENCES people (id),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  -- Whoever is in a picture was not asked whether a client may see it.
  CHECK (NOT (shows_person AND client_may_see)),
  CHECK (piece_id IS NOT NULL OR (heat_id IS NULL AND incident_id IS NULL AND part IS NULL))
) STRICT;
CREATE INDEX photos_commission ON photos (commission_id, id);
CREATE INDEX photos_piece ON photos (piece_id, id);
CREATE INDEX photos_heat ON photos (heat_id, id);
CREATE INDEX photos_incident ON photos (incident_id, id);

-- Apart from what is said of a picture, so that lists need not read past its bytes.
CREATE TABLE photo_files (
  photo_id TEXT NOT NULL REFERENCES photos (id) ON DELETE CASCADE,
  size TEXT NOT NULL CHECK (size IN ('full', 'thumbnail')),
  bytes BLOB NOT NULL,
  PRIMARY KEY (photo_id, size)
) STRICT;
