/** Longer intervals that a named person approved; a withdrawal is written beside it. Frozen text. */
export const approvalTables = `
CREATE TABLE interval_approval (
  id INTEGER PRIMARY KEY,
  unit_number TEXT NOT NULL CHECK (length(unit_number) > 0),
  interval_km REAL NOT NULL CHECK (interval_km BETWEEN 500 AND 200000),
  approved_by TEXT NOT NULL CHECK (length(trim(approved_by)) >= 2),
  approved_on TEXT NOT NULL CHECK (approved_on GLOB '????-??-??'),
  note TEXT,
  evidence TEXT NOT NULL CHECK (json_valid(evidence)),
  made_at TEXT NOT NULL,
  withdrawn_on TEXT CHECK (withdrawn_on GLOB '????-??-??'),
  withdrawn_by TEXT,
  CHECK ((withdrawn_on IS NULL) = (withdrawn_by IS NULL))
) STRICT;
CREATE INDEX interval_approval_unit ON interval_approval (unit_number);
`;
