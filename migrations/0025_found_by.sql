-- Searches that ended long ago are cleared away, found by when they ended; money that was sent back is found by what it was of.
CREATE INDEX plan_searches_ended ON plan_searches (ended_at) WHERE ended_at IS NOT NULL;
CREATE INDEX payments_returns ON payments (returns_id) WHERE returns_id IS NOT NULL;
