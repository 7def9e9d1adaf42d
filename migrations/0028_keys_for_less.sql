-- A token may be worth less than its person: some of their roles, or looking alone.
ALTER TABLE tokens ADD COLUMN roles TEXT CHECK (roles IS NULL OR json_valid(roles));
ALTER TABLE tokens ADD COLUMN only_reads INTEGER NOT NULL DEFAULT 0 CHECK (only_reads IN (0, 1));
CREATE INDEX sessions_person ON sessions (person_id, id);
