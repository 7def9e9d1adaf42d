-- Tablets at the benches that several people use, each by a short PIN; and one-time codes for whoever lost a PIN or a password.

CREATE TABLE shared_tablets (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  -- SHA-256 of the secret that its browser holds.
  token_hash TEXT NOT NULL UNIQUE,
  added_by TEXT NOT NULL REFERENCES people (id),
  revoked_at TEXT,
  created_at TEXT NOT NULL
) STRICT;

-- A session on a tablet is over some minutes after its person last did something.
ALTER TABLE sessions ADD COLUMN tablet_id TEXT REFERENCES shared_tablets (id);
ALTER TABLE sessions ADD COLUMN touched_at TEXT;
CREATE INDEX sessions_tablet ON sessions (tablet_id);

CREATE TABLE pins (
  person_id TEXT PRIMARY KEY REFERENCES people (id),
  pin_hash TEXT NOT NULL,
  created_at TEXT NOT NULL
) STRICT;

-- Wrong PINs in a row, of one person and of one tablet, and when the next may be tried.
CREATE TABLE pin_tries (
  who TEXT PRIMARY KEY,
  wrong INTEGER NOT NULL CHECK (wrong >= 0),
  next_at TEXT
) STRICT;

CREATE TABLE one_time_codes (
  id TEXT PRIMARY KEY,
  person_id TEXT NOT NULL REFERENCES people (id),
  purpose TEXT NOT NULL CHECK (purpose IN ('pin', 'password')),
  code_hash TEXT NOT NULL UNIQUE,
  expires_at TEXT NOT NULL,
  used_at TEXT,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX one_time_codes_person ON one_time_codes (person_id, purpose);
