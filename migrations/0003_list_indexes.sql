-- Every list goes by an index for each filter it takes, newest first.

CREATE INDEX commissions_kind ON commissions (kind, id);
CREATE INDEX pieces_state ON pieces (state, id);
CREATE INDEX incidents_state ON incidents (state, id);
CREATE INDEX solder_lots_state ON solder_lots (state, id);
CREATE INDEX quotes_state ON quotes (state, id);
CREATE INDEX bench_times_person ON bench_times (person_id, id);
CREATE INDEX bench_times_state ON bench_times (state, id);
CREATE INDEX calibrations_torch ON calibrations (torch_id, id);
CREATE INDEX journal_what ON journal (what, seq);
