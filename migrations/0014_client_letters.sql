-- What a client was written or told, and when: the last word of a commission, and letters to who does not collect.
CREATE TABLE client_letters (
  id TEXT PRIMARY KEY,
  commission_id TEXT NOT NULL REFERENCES commissions (id),
  kind TEXT NOT NULL CHECK (kind IN ('collection_notice', 'balance_reminder', 'new_date', 'other')),
  how TEXT NOT NULL CHECK (how IN ('post', 'email', 'phone', 'in_person')),
  sent_on TEXT NOT NULL,
  note TEXT,
  person_id TEXT NOT NULL REFERENCES people (id),
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX client_letters_commission ON client_letters (commission_id, id);
CREATE TRIGGER client_letters_never_change BEFORE UPDATE ON client_letters BEGIN SELECT RAISE(ABORT, 'what a client was told stays as it was'); END;
