-- Copies of the whole book that were put away, and what became of each. A line is never removed; the file it tells of may be.
CREATE TABLE backups (
  id TEXT PRIMARY KEY,
  begun_at TEXT NOT NULL,
  ended_at TEXT,
  state TEXT NOT NULL CHECK (state IN ('running', 'kept', 'failed', 'removed')),
  asked_by TEXT REFERENCES people (id),
  folder TEXT NOT NULL,
  file_name TEXT NOT NULL,
  bytes INTEGER,
  sha256 TEXT,
  failure TEXT,
  checked_at TEXT,
  check_failure TEXT
) STRICT;

CREATE INDEX backups_state ON backups (state, id);
