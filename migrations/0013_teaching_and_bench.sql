-- What students think will become of earlier joints, a tutor's yes to a heat, the bench and the flux of a heat, states of payments.

-- One line a joint: guessed once, before the prediction was shown, with what was predicted then.
CREATE TABLE joint_guesses (
  id TEXT PRIMARY KEY,
  person_id TEXT NOT NULL REFERENCES people (id),
  plan_id TEXT NOT NULL REFERENCES plans (id),
  heat INTEGER NOT NULL CHECK (heat >= 1),
  joint TEXT NOT NULL,
  guess TEXT NOT NULL CHECK (guess IN ('solid', 'softens', 'runs')),
  predicted TEXT NOT NULL CHECK (predicted IN ('solid', 'softens', 'runs')),
  at TEXT NOT NULL,
  UNIQUE (person_id, plan_id, heat, joint)
) STRICT;
CREATE INDEX joint_guesses_plan ON joint_guesses (plan_id, id);
CREATE INDEX joint_guesses_at ON joint_guesses (at);

-- That a student may light this heat. Taken back, it is taken out; the journal keeps both.
CREATE TABLE tutor_yes (
  heat_id TEXT NOT NULL REFERENCES heats (id),
  student_id TEXT NOT NULL REFERENCES people (id),
  tutor_id TEXT NOT NULL REFERENCES people (id),
  at TEXT NOT NULL,
  PRIMARY KEY (heat_id, student_id),
  CHECK (student_id <> tutor_id)
) STRICT;

-- At which bench a heat was lit, and with which flux it was made ready.
ALTER TABLE heats ADD COLUMN bench_id TEXT REFERENCES benches (id);
ALTER TABLE heats ADD COLUMN flux TEXT CHECK (flux IS NULL OR json_valid(flux));
CREATE INDEX heats_bench ON heats (bench_id) WHERE state = 'alight';

-- Whether the flux that a paste brings with it holds fluoride; null for solder that brings none.
ALTER TABLE solder_products ADD COLUMN flux_fluoride TEXT CHECK (flux_fluoride IN ('no', 'yes', 'unknown'));
UPDATE solder_products SET flux_fluoride = 'unknown' WHERE form = 'paste';

-- Money that is asked for has not been received; money sent back belongs to what was received.
CREATE TABLE payments_with_states (
  id TEXT PRIMARY KEY,
  commission_id TEXT NOT NULL REFERENCES commissions (id),
  kind TEXT NOT NULL CHECK (kind IN ('deposit', 'stage', 'balance', 'send_back')),
  amount_minor INTEGER NOT NULL CHECK (amount_minor > 0),
  currency TEXT NOT NULL,
  how TEXT NOT NULL CHECK (how IN ('cash', 'card', 'transfer', 'other')),
  received_on TEXT,
  reason TEXT,
  person_id TEXT NOT NULL REFERENCES people (id),
  created_at TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('due', 'received', 'part_sent_back', 'sent_back')),
  due_on TEXT,
  returns_id TEXT REFERENCES payments (id),
  version INTEGER NOT NULL DEFAULT 1,
  CHECK ((state = 'due') = (received_on IS NULL)),
  CHECK (returns_id IS NULL OR kind = 'send_back')
) STRICT;
INSERT INTO payments_with_states
  SELECT id, commission_id, kind, amount_minor, currency, how, received_on, reason, person_id, created_at,
    CASE kind WHEN 'send_back' THEN 'sent_back' ELSE 'received' END, NULL, NULL, 1
  FROM payments;
DROP TABLE payments;
ALTER TABLE payments_with_states RENAME TO payments;
CREATE INDEX payments_commission ON payments (commission_id);
