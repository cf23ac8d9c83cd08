/** Drain intervals that a named person adopted for a duty group; a withdrawal is written beside it. Frozen text. */
export const policyTables = `
CREATE TABLE interval_policy (
  id INTEGER PRIMARY KEY,
  duty TEXT NOT NULL CHECK (length(trim(duty)) > 0),
  interval_km REAL NOT NULL CHECK (interval_km BETWEEN 500 AND 200000),
  adopted_by TEXT NOT NULL CHECK (length(trim(adopted_by)) >= 2),
  adopted_on TEXT NOT NULL CHECK (adopted_on GLOB '????-??-??'),
  note TEXT,
  made_at TEXT NOT NULL,
  withdrawn_on TEXT CHECK (withdrawn_on GLOB '????-??-??'),
  withdrawn_by TEXT,
  CHECK ((withdrawn_on IS NULL) = (withdrawn_by IS NULL))
) STRICT;
`;
