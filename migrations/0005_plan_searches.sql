-- Searches for a plan that are written down: asked now, answered when they have had their turn.

CREATE TABLE plan_searches (
  id TEXT PRIMARY KEY,
  -- A design on its own has no piece.
  piece_id TEXT REFERENCES pieces (id),
  design_id TEXT REFERENCES designs (id),
  person_id TEXT NOT NULL REFERENCES people (id),
  state TEXT NOT NULL CHECK (state IN ('waiting', 'running', 'done', 'stopped', 'interrupted', 'failed')),
  design TEXT NOT NULL CHECK (json_valid(design)),
  made_joints TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(made_joints)),
  bench TEXT NOT NULL CHECK (json_valid(bench)),
  solders TEXT NOT NULL CHECK (json_valid(solders)),
  options TEXT NOT NULL CHECK (json_valid(options)),
  progress TEXT CHECK (progress IS NULL OR json_valid(progress)),
  answer TEXT CHECK (answer IS NULL OR json_valid(answer)),
  failure TEXT,
  plan_id TEXT REFERENCES plans (id),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  started_at TEXT,
  ended_at TEXT,
  CHECK ((piece_id IS NULL) = (design_id IS NULL))
) STRICT;
CREATE INDEX plan_searches_piece ON plan_searches (piece_id, id);
CREATE INDEX plan_searches_person ON plan_searches (person_id, id);
CREATE INDEX plan_searches_state ON plan_searches (state, id);
CREATE INDEX plan_searches_under_way ON plan_searches (id) WHERE ended_at IS NULL;
