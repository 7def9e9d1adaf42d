-- The bench: who works at which, absences, months that are closed, steps as devices sent them, guesses of students, what was learned.

CREATE TABLE benches (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL UNIQUE,
  person_id TEXT UNIQUE REFERENCES people (id),
  minutes_per_day INTEGER CHECK (minutes_per_day BETWEEN 0 AND 900),
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;

-- Days, or a part of each, on which a person is not at the bench; of nobody in particular: the studio is closed.
CREATE TABLE absences (
  id TEXT PRIMARY KEY,
  person_id TEXT REFERENCES people (id),
  first_on TEXT NOT NULL,
  last_on TEXT NOT NULL,
  minutes_per_day INTEGER CHECK (minutes_per_day BETWEEN 1 AND 900),
  weekly INTEGER NOT NULL DEFAULT 0 CHECK (weekly IN (0, 1)),
  reason TEXT NOT NULL,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  CHECK (first_on <= last_on)
) STRICT;
CREATE INDEX absences_person ON absences (person_id, id);

CREATE TABLE month_locks (
  id TEXT PRIMARY KEY,
  month TEXT NOT NULL UNIQUE CHECK (month GLOB '[0-9][0-9][0-9][0-9]-[0-1][0-9]'),
  person_id TEXT REFERENCES people (id),
  created_at TEXT NOT NULL
) STRICT;

-- A time in a closed month stays as it is; what was wrong with it is a time of its own, of more or fewer minutes.
ALTER TABLE bench_times ADD COLUMN corrects_id TEXT REFERENCES bench_times (id);
CREATE INDEX bench_times_corrects ON bench_times (corrects_id);

-- Steps as they came in, each with the answer it got and the lines of the journal it left.
CREATE TABLE bench_steps (
  person_id TEXT NOT NULL REFERENCES people (id),
  key TEXT NOT NULL,
  request_hash TEXT NOT NULL,
  kind TEXT NOT NULL,
  device_id TEXT NOT NULL,
  device_seq INTEGER NOT NULL,
  occurred_at TEXT NOT NULL,
  recorded_at TEXT NOT NULL,
  answer TEXT NOT NULL CHECK (json_valid(answer)),
  first_line INTEGER NOT NULL,
  last_line INTEGER NOT NULL,
  undone_by TEXT,
  PRIMARY KEY (person_id, key)
) STRICT;

-- Factors learned from logged time, each as it was accepted, with what it came from.
CREATE TABLE learned_factors (
  id TEXT PRIMARY KEY,
  operation TEXT NOT NULL,
  person_id TEXT REFERENCES people (id),
  factor REAL NOT NULL CHECK (factor > 0),
  spread REAL NOT NULL CHECK (spread >= 0),
  pieces INTEGER NOT NULL CHECK (pieces >= 1),
  evidence TEXT NOT NULL CHECK (json_valid(evidence)),
  accepted_by TEXT NOT NULL REFERENCES people (id),
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX learned_factors_operation ON learned_factors (operation, id);
