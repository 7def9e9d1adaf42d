-- Letters as they were sent, links by which a client follows a commission, and what clients wrote by them.

CREATE TABLE sent_letters (
  quote_id TEXT PRIMARY KEY REFERENCES quotes (id),
  paper TEXT NOT NULL CHECK (json_valid(paper)),
  created_at TEXT NOT NULL
) STRICT;
CREATE TRIGGER sent_letters_never_change BEFORE UPDATE ON sent_letters BEGIN SELECT RAISE(ABORT, 'a sent letter stays as it is'); END;

CREATE TABLE private_links (
  id TEXT PRIMARY KEY,
  commission_id TEXT NOT NULL REFERENCES commissions (id),
  -- SHA-256 of the secret, which is shown once and kept nowhere.
  token_hash TEXT NOT NULL UNIQUE,
  state TEXT NOT NULL CHECK (state IN ('open', 'ended', 'cut_off')),
  state_reason TEXT,
  visits INTEGER NOT NULL DEFAULT 0 CHECK (visits >= 0),
  last_visit_at TEXT,
  made_by TEXT NOT NULL REFERENCES people (id),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX private_links_commission ON private_links (commission_id, id);
CREATE INDEX private_links_state ON private_links (state, id);

CREATE TABLE client_messages (
  id TEXT PRIMARY KEY,
  commission_id TEXT NOT NULL REFERENCES commissions (id),
  link_id TEXT NOT NULL REFERENCES private_links (id),
  words TEXT NOT NULL CHECK (length(words) BETWEEN 1 AND 2000),
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX client_messages_commission ON client_messages (commission_id, id);
CREATE INDEX client_messages_link ON client_messages (link_id, created_at);
