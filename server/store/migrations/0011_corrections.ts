/** Suggested mends as cells, every decision on a held row, and rows that a corrected file replaced. Frozen text. */
export const correctionTables = `
ALTER TABLE held_row ADD COLUMN mend_cells TEXT;

CREATE TABLE held_decision (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  action TEXT NOT NULL CHECK (action IN ('accept', 'mend', 'reject', 'reopen')),
  mended TEXT,
  decided_by TEXT NOT NULL,
  decided_at TEXT NOT NULL
) STRICT;
CREATE INDEX held_decision_row ON held_decision (file_id, line);

CREATE TABLE replaced_row (
  id INTEGER PRIMARY KEY,
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  kind TEXT NOT NULL,
  raw TEXT NOT NULL,
  record TEXT CHECK (record IS NULL OR json_valid(record)),
  held_state TEXT
) STRICT;
CREATE INDEX replaced_row_batch ON replaced_row (batch_id);
`;
