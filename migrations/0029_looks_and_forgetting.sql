-- Who looked at what is known of a client, once for each way, person and hour. No client: at all of them at once.
CREATE TABLE client_looks (
  id TEXT PRIMARY KEY,
  client_id TEXT REFERENCES clients (id),
  person_id TEXT NOT NULL REFERENCES people (id),
  way TEXT NOT NULL,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX client_looks_client ON client_looks (client_id, id);
CREATE TRIGGER client_looks_never_change BEFORE UPDATE ON client_looks BEGIN SELECT RAISE(ABORT, 'looks are append-only'); END;
CREATE TRIGGER client_looks_never_shrink BEFORE DELETE ON client_looks BEGIN SELECT RAISE(ABORT, 'looks are append-only'); END;

-- A row only inside the transaction in which a client is forgotten: then, and then alone, words may be taken out of what never changes.
CREATE TABLE forgetting (client_id TEXT PRIMARY KEY) STRICT;

-- Whoever was forgotten needs no way to be reached.
CREATE TABLE clients_anew (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  email TEXT,
  phone TEXT,
  language TEXT NOT NULL,
  post_address TEXT,
  ring_size_mm REAL,
  metal_sensitivity TEXT,
  photo_allowed INTEGER NOT NULL DEFAULT 0 CHECK (photo_allowed IN (0, 1)),
  notes TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL,
  forgotten_at TEXT,
  CHECK (email IS NOT NULL OR phone IS NOT NULL OR forgotten_at IS NOT NULL)
) STRICT;
INSERT INTO clients_anew
  SELECT id, name, email, phone, language, post_address, ring_size_mm, metal_sensitivity, photo_allowed, notes, version, created_at, NULL FROM clients;
DROP TABLE clients;
ALTER TABLE clients_anew RENAME TO clients;
CREATE TRIGGER clients_searchable_added AFTER INSERT ON clients BEGIN
  INSERT INTO searchable (kind, thing_id, label, words)
    VALUES ('client', new.id, new.name, new.name || ' ' || coalesce(new.email, '') || ' ' || coalesce(new.phone, ''));
END;
CREATE TRIGGER clients_searchable_changed AFTER UPDATE OF name, email, phone ON clients BEGIN
  UPDATE searchable SET label = new.name, words = new.name || ' ' || coalesce(new.email, '') || ' ' || coalesce(new.phone, '')
    WHERE kind = 'client' AND thing_id = new.id;
END;
CREATE TRIGGER clients_searchable_taken AFTER DELETE ON clients BEGIN
  DELETE FROM searchable WHERE kind = 'client' AND thing_id = old.id;
END;

DROP TRIGGER journal_never_changes;
CREATE TRIGGER journal_never_changes BEFORE UPDATE ON journal
  WHEN NOT EXISTS (SELECT 1 FROM forgetting)
    OR (old.seq, old.at, old.person_id, old.device_id, old.what, old.thing_id) IS NOT (new.seq, new.at, new.person_id, new.device_id, new.what, new.thing_id)
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
DROP TRIGGER sent_letters_never_change;
CREATE TRIGGER sent_letters_never_change BEFORE UPDATE ON sent_letters
  WHEN NOT EXISTS (SELECT 1 FROM forgetting)
BEGIN SELECT RAISE(ABORT, 'a sent letter stays as it is'); END;
DROP TRIGGER client_letters_never_change;
CREATE TRIGGER client_letters_never_change BEFORE UPDATE ON client_letters
  WHEN NOT EXISTS (SELECT 1 FROM forgetting)
    OR (old.id, old.commission_id, old.kind, old.how, old.sent_on, old.person_id, old.created_at) IS NOT (new.id, new.commission_id, new.kind, new.how, new.sent_on, new.person_id, new.created_at)
BEGIN SELECT RAISE(ABORT, 'what a client was told stays as it was'); END;

-- Of a movement, why: that is what somebody typed.
DROP TRIGGER stock_movements_never_change;
CREATE TRIGGER stock_movements_never_change BEFORE UPDATE ON stock_movements
  WHEN NOT EXISTS (SELECT 1 FROM forgetting)
    OR (old.id, old.kind, old.product_id, old.lot_id, old.on_hand_tenth_mg, old.held_tenth_mg, old.piece_id, old.heat_id, old.reverses_id, old.at, old.recorded_at, old.person_id) IS NOT (new.id, new.kind, new.product_id, new.lot_id, new.on_hand_tenth_mg, new.held_tenth_mg, new.piece_id, new.heat_id, new.reverses_id, new.at, new.recorded_at, new.person_id)
BEGIN SELECT RAISE(ABORT, 'stock movements are append-only'); END;
DROP TRIGGER metal_movements_never_change;
CREATE TRIGGER metal_movements_never_change BEFORE UPDATE ON metal_movements
  WHEN NOT EXISTS (SELECT 1 FROM forgetting)
    OR (old.id, old.kind, old.lot_id, old.on_hand_tenth_mg, old.piece_id, old.reverses_id, old.at, old.recorded_at, old.person_id) IS NOT (new.id, new.kind, new.lot_id, new.on_hand_tenth_mg, new.piece_id, new.reverses_id, new.at, new.recorded_at, new.person_id)
BEGIN SELECT RAISE(ABORT, 'metal movements are append-only'); END;
DROP TRIGGER supply_movements_never_change;
CREATE TRIGGER supply_movements_never_change BEFORE UPDATE ON supply_movements
  WHEN NOT EXISTS (SELECT 1 FROM forgetting)
    OR (old.id, old.supply_id, old.kind, old.on_hand_units, old.unit_cost, old.reverses_id, old.person_id, old.at) IS NOT (new.id, new.supply_id, new.kind, new.on_hand_units, new.unit_cost, new.reverses_id, new.person_id, new.at)
BEGIN SELECT RAISE(ABORT, 'supply movements are append-only'); END;

-- What is taken out of the index of words is gone from it at once, and what was taken out before goes now.
INSERT INTO searchable_words (searchable_words, rank) VALUES ('secure-delete', 1);
INSERT INTO searchable_words (searchable_words) VALUES ('rebuild');
