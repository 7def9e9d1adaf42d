-- One commission's quotes in a state, whatever the state: an index of one state alone is not used for a state that is bound.
CREATE INDEX quotes_commission ON quotes (commission_id, state, id);

-- What the journal says of one thing as something: with an index of each alone, either is taken, and one of them is half of the journal.
DROP INDEX journal_thing;
CREATE INDEX journal_thing ON journal (thing_id, what, seq);

-- A page of heats in one state, the newest first.
DROP INDEX heats_state;
CREATE INDEX heats_state ON heats (state, id);

-- What one return took.
CREATE INDEX scrap_return_pieces_return ON scrap_return_pieces (return_id);
