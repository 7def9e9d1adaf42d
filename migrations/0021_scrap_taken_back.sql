-- A jar that was never sent, or a settlement that was typed wrong, is taken back with a reason.
ALTER TABLE scrap_returns ADD COLUMN taken_back TEXT CHECK (taken_back IS NULL OR json_valid(taken_back));
