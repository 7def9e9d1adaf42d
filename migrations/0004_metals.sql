-- Metals of the studio beside those of the table: what its data sheets and trials say, each value with its source.

CREATE TABLE own_metals (
  id TEXT PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 40),
  name TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('silver', 'gold', 'platinum', 'base')),
  like_metal TEXT,
  fineness_fraction REAL CHECK (fineness_fraction BETWEEN 0 AND 1),
  solidus_c REAL NOT NULL,
  liquidus_c REAL NOT NULL CHECK (liquidus_c >= solidus_c),
  density_g_per_cm3 REAL NOT NULL CHECK (density_g_per_cm3 > 0),
  conductivity_w_per_m_k REAL CHECK (conductivity_w_per_m_k > 0),
  specific_heat_j_per_kg_k REAL CHECK (specific_heat_j_per_kg_k > 0),
  emissivity_fraction REAL CHECK (emissivity_fraction > 0 AND emissivity_fraction <= 1),
  sources TEXT NOT NULL CHECK (json_valid(sources)),
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  version INTEGER NOT NULL DEFAULT 1,
  created_at TEXT NOT NULL
) STRICT;
