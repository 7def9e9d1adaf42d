-- What the one box searches: a line of words for each thing that people look for, kept by triggers, so that no feature has to
-- think of it. Whoever rebuilds one of these tables has to make its triggers again.
CREATE TABLE searchable (
  seq INTEGER PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('client', 'commission', 'piece', 'solder_product', 'solder_lot', 'metal_product', 'supplier')),
  thing_id TEXT NOT NULL,
  -- What it is called, and all that finds it.
  label TEXT NOT NULL,
  words TEXT NOT NULL,
  UNIQUE (kind, thing_id)
) STRICT;

-- Trigrams find a part of a word, in any script.
CREATE VIRTUAL TABLE searchable_words USING fts5 (words, content = 'searchable', content_rowid = 'seq', tokenize = 'trigram');

CREATE TRIGGER searchable_added AFTER INSERT ON searchable BEGIN
  INSERT INTO searchable_words (rowid, words) VALUES (new.seq, new.words);
END;
CREATE TRIGGER searchable_taken AFTER DELETE ON searchable BEGIN
  INSERT INTO searchable_words (searchable_words, rowid, words) VALUES ('delete', old.seq, old.words);
END;
CREATE TRIGGER searchable_changed AFTER UPDATE ON searchable BEGIN
  INSERT INTO searchable_words (searchable_words, rowid, words) VALUES ('delete', old.seq, old.words);
  INSERT INTO searchable_words (rowid, words) VALUES (new.seq, new.words);
END;

INSERT INTO searchable (kind, thing_id, label, words)
  SELECT 'client', clients.id, clients.name, clients.name || ' ' || coalesce(clients.email, '') || ' ' || coalesce(clients.phone, '') FROM clients ORDER BY clients.id;
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

INSERT INTO searchable (kind, thing_id, label, words)
  SELECT 'commission', commissions.id, commissions.number || ' ' || commissions.title, commissions.number || ' ' || commissions.title || ' ' || coalesce(commissions.wish, '') FROM commissions ORDER BY commissions.id;
CREATE TRIGGER commissions_searchable_added AFTER INSERT ON commissions BEGIN
  INSERT INTO searchable (kind, thing_id, label, words)
    VALUES ('commission', new.id, new.number || ' ' || new.title, new.number || ' ' || new.title || ' ' || coalesce(new.wish, ''));
END;
CREATE TRIGGER commissions_searchable_changed AFTER UPDATE OF number, title, wish ON commissions BEGIN
  UPDATE searchable SET label = new.number || ' ' || new.title, words = new.number || ' ' || new.title || ' ' || coalesce(new.wish, '')
    WHERE kind = 'commission' AND thing_id = new.id;
END;
CREATE TRIGGER commissions_searchable_taken AFTER DELETE ON commissions BEGIN
  DELETE FROM searchable WHERE kind = 'commission' AND thing_id = old.id;
END;

INSERT INTO searchable (kind, thing_id, label, words)
  SELECT 'piece', pieces.id, pieces.number || ' ' || pieces.title, pieces.number || ' ' || pieces.title FROM pieces ORDER BY pieces.id;
CREATE TRIGGER pieces_searchable_added AFTER INSERT ON pieces BEGIN
  INSERT INTO searchable (kind, thing_id, label, words)
    VALUES ('piece', new.id, new.number || ' ' || new.title, new.number || ' ' || new.title);
END;
CREATE TRIGGER pieces_searchable_changed AFTER UPDATE OF number, title ON pieces BEGIN
  UPDATE searchable SET label = new.number || ' ' || new.title, words = new.number || ' ' || new.title
    WHERE kind = 'piece' AND thing_id = new.id;
END;
CREATE TRIGGER pieces_searchable_taken AFTER DELETE ON pieces BEGIN
  DELETE FROM searchable WHERE kind = 'piece' AND thing_id = old.id;
END;

INSERT INTO searchable (kind, thing_id, label, words)
  SELECT 'solder_product', solder_products.id, solder_products.name, solder_products.code || ' ' || solder_products.name || ' ' || solder_products.grade_word FROM solder_products ORDER BY solder_products.id;
CREATE TRIGGER solder_products_searchable_added AFTER INSERT ON solder_products BEGIN
  INSERT INTO searchable (kind, thing_id, label, words)
    VALUES ('solder_product', new.id, new.name, new.code || ' ' || new.name || ' ' || new.grade_word);
END;
CREATE TRIGGER solder_products_searchable_changed AFTER UPDATE OF code, name, grade_word ON solder_products BEGIN
  UPDATE searchable SET label = new.name, words = new.code || ' ' || new.name || ' ' || new.grade_word
    WHERE kind = 'solder_product' AND thing_id = new.id;
END;
CREATE TRIGGER solder_products_searchable_taken AFTER DELETE ON solder_products BEGIN
  DELETE FROM searchable WHERE kind = 'solder_product' AND thing_id = old.id;
END;

INSERT INTO searchable (kind, thing_id, label, words)
  SELECT 'solder_lot', solder_lots.id, solder_lots.number, solder_lots.number || ' ' || coalesce(solder_lots.mark_on_metal, '') FROM solder_lots ORDER BY solder_lots.id;
CREATE TRIGGER solder_lots_searchable_added AFTER INSERT ON solder_lots BEGIN
  INSERT INTO searchable (kind, thing_id, label, words)
    VALUES ('solder_lot', new.id, new.number, new.number || ' ' || coalesce(new.mark_on_metal, ''));
END;
CREATE TRIGGER solder_lots_searchable_changed AFTER UPDATE OF number, mark_on_metal ON solder_lots BEGIN
  UPDATE searchable SET label = new.number, words = new.number || ' ' || coalesce(new.mark_on_metal, '')
    WHERE kind = 'solder_lot' AND thing_id = new.id;
END;
CREATE TRIGGER solder_lots_searchable_taken AFTER DELETE ON solder_lots BEGIN
  DELETE FROM searchable WHERE kind = 'solder_lot' AND thing_id = old.id;
END;

INSERT INTO searchable (kind, thing_id, label, words)
  SELECT 'metal_product', metal_products.id, metal_products.name, metal_products.name FROM metal_products ORDER BY metal_products.id;
CREATE TRIGGER metal_products_searchable_added AFTER INSERT ON metal_products BEGIN
  INSERT INTO searchable (kind, thing_id, label, words)
    VALUES ('metal_product', new.id, new.name, new.name);
END;
CREATE TRIGGER metal_products_searchable_changed AFTER UPDATE OF name ON metal_products BEGIN
  UPDATE searchable SET label = new.name, words = new.name
    WHERE kind = 'metal_product' AND thing_id = new.id;
END;
CREATE TRIGGER metal_products_searchable_taken AFTER DELETE ON metal_products BEGIN
  DELETE FROM searchable WHERE kind = 'metal_product' AND thing_id = old.id;
END;

INSERT INTO searchable (kind, thing_id, label, words)
  SELECT 'supplier', suppliers.id, suppliers.name, suppliers.name FROM suppliers ORDER BY suppliers.id;
CREATE TRIGGER suppliers_searchable_added AFTER INSERT ON suppliers BEGIN
  INSERT INTO searchable (kind, thing_id, label, words)
    VALUES ('supplier', new.id, new.name, new.name);
END;
CREATE TRIGGER suppliers_searchable_changed AFTER UPDATE OF name ON suppliers BEGIN
  UPDATE searchable SET label = new.name, words = new.name
    WHERE kind = 'supplier' AND thing_id = new.id;
END;
CREATE TRIGGER suppliers_searchable_taken AFTER DELETE ON suppliers BEGIN
  DELETE FROM searchable WHERE kind = 'supplier' AND thing_id = old.id;
END;
