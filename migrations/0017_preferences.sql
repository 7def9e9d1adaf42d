-- How each person reads the book: language and units; NULL is the studio's.
CREATE TABLE preferences (
  person_id TEXT PRIMARY KEY REFERENCES people (id),
  language TEXT,
  units TEXT CHECK (units IS NULL OR json_valid(units)),
  version INTEGER NOT NULL
) STRICT;
