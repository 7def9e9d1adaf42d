-- Torches of the studio, what observed heats say of each in whose hands, and the times seen in a heat.

CREATE TABLE torches (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL UNIQUE,
  torch TEXT NOT NULL CHECK (json_valid(torch)),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;

CREATE TABLE calibrations (
  id TEXT PRIMARY KEY,
  person_id TEXT NOT NULL REFERENCES people (id),
  torch_id TEXT NOT NULL REFERENCES torches (id),
  version INTEGER NOT NULL,
  answer TEXT NOT NULL CHECK (json_valid(answer)),
  heat_ids TEXT NOT NULL CHECK (json_valid(heat_ids)),
  observations TEXT NOT NULL CHECK (json_valid(observations)),
  strips TEXT NOT NULL CHECK (json_valid(strips)),
  created_at TEXT NOT NULL,
  UNIQUE (person_id, torch_id, version)
) STRICT;

ALTER TABLE heats ADD COLUMN observed TEXT CHECK (observed IS NULL OR json_valid(observed));
