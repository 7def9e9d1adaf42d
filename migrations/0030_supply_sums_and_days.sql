-- What each supply has come to, kept by the program with every line of its ledger, so that nobody who looks at a list adds up years. A
-- supply whose ledger was written before has no row until its next line, and is added up from its ledger.
CREATE TABLE now_supplies (
  supply_id TEXT PRIMARY KEY REFERENCES supplies (id),
  on_hand_units INTEGER NOT NULL,
  -- Used, and not put back.
  out_units INTEGER NOT NULL,
  -- A decimal for a gram or a piece; NULL until some came in.
  average_cost TEXT
) STRICT, WITHOUT ROWID;

-- Reports over a period, by the day they go by.
CREATE INDEX bench_times_started ON bench_times (started_at);
CREATE INDEX plans_made ON plans (made_by, created_at);
CREATE INDEX hallmark_packets_sent ON hallmark_packets (sent_on);
