-- The words that a person read, so that a caution whose words change is read again. Of ticks from before, nobody knows them.
ALTER TABLE caution_ticks ADD COLUMN words TEXT;

CREATE INDEX payments_state ON payments (state, id);
