-- What a place asks of silver that is sold there, as the studio enters it, and packets that go to be assayed and marked.

CREATE TABLE place_rules (
  place TEXT PRIMARY KEY CHECK (length(place) = 2),
  office TEXT,
  source TEXT NOT NULL,
  mark_over_g REAL CHECK (mark_over_g >= 0),
  least_solder_fineness_fraction REAL CHECK (least_solder_fineness_fraction BETWEEN 0 AND 1),
  tolerance_without_solder_fraction REAL CHECK (tolerance_without_solder_fraction BETWEEN 0 AND 1),
  tolerance_with_solder_fraction REAL CHECK (tolerance_with_solder_fraction BETWEEN 0 AND 1),
  added_metal_g REAL CHECK (added_metal_g >= 0),
  added_metal_fraction REAL CHECK (added_metal_fraction BETWEEN 0 AND 1),
  tax_rate_fraction REAL CHECK (tax_rate_fraction BETWEEN 0 AND 1),
  keep_years INTEGER CHECK (keep_years >= 0),
  version INTEGER NOT NULL DEFAULT 1,
  updated_at TEXT NOT NULL
) STRICT;

CREATE TABLE hallmark_packets (
  id TEXT PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  place TEXT NOT NULL,
  office TEXT NOT NULL,
  currency TEXT NOT NULL,
  fee_minor INTEGER NOT NULL CHECK (fee_minor >= 0),
  post_minor INTEGER NOT NULL CHECK (post_minor >= 0),
  per_article_minor INTEGER NOT NULL CHECK (per_article_minor >= 0),
  articles INTEGER NOT NULL CHECK (articles >= 1),
  state TEXT NOT NULL,
  state_reason TEXT,
  sent_on TEXT,
  back_on TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX hallmark_packets_state ON hallmark_packets (state, id);

CREATE TABLE hallmark_packet_pieces (
  packet_id TEXT NOT NULL REFERENCES hallmark_packets (id),
  piece_id TEXT NOT NULL REFERENCES pieces (id),
  parts TEXT NOT NULL,
  part_marks_minor INTEGER NOT NULL CHECK (part_marks_minor >= 0),
  weighed_tenth_mg INTEGER CHECK (weighed_tenth_mg > 0),
  back_tenth_mg INTEGER CHECK (back_tenth_mg > 0),
  outcome TEXT CHECK (outcome IN ('struck', 'refused', 'lost')),
  PRIMARY KEY (packet_id, piece_id)
) STRICT;
CREATE INDEX hallmark_packet_pieces_piece ON hallmark_packet_pieces (piece_id);
