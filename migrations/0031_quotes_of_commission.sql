-- One commission's quotes in a state, whatever the state: an index of one state alone is not used for a state that is bound.
CREATE INDEX quotes_commission ON quotes (commission_id, state, id);
