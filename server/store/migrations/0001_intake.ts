/** What came in, from where, and what became of each row. Frozen text: a later change is a later migration. */
export const intakeTables = `
CREATE TABLE batch (
  id INTEGER PRIMARY KEY,
  made_at TEXT NOT NULL,
  made_by TEXT NOT NULL,
  undone_at TEXT
) STRICT;

CREATE TABLE intake_file (
  id INTEGER PRIMARY KEY,
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  name TEXT NOT NULL,
  sheet TEXT,
  kind TEXT NOT NULL,
  content_hash TEXT NOT NULL,
  header TEXT NOT NULL,
  column_map TEXT NOT NULL,
  unknown_columns TEXT NOT NULL,
  rows_read INTEGER NOT NULL CHECK (rows_read >= 0)
) STRICT;
CREATE INDEX intake_file_batch ON intake_file (batch_id);

CREATE TABLE duplicate_row (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  kind TEXT NOT NULL,
  fingerprint INTEGER NOT NULL,
  raw TEXT NOT NULL
) STRICT;
CREATE INDEX duplicate_row_file ON duplicate_row (file_id);
CREATE INDEX duplicate_row_fingerprint ON duplicate_row (fingerprint);

CREATE TABLE held_row (
  id INTEGER PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  kind TEXT NOT NULL,
  unit_number TEXT,
  code TEXT NOT NULL,
  message TEXT NOT NULL,
  mend TEXT,
  raw TEXT NOT NULL,
  mended TEXT,
  raw_hash INTEGER NOT NULL,
  state TEXT NOT NULL DEFAULT 'held' CHECK (state IN ('held', 'accepted', 'rejected', 'skipped')),
  decided_at TEXT,
  decided_by TEXT
) STRICT;
CREATE INDEX held_row_file ON held_row (file_id);
CREATE INDEX held_row_state ON held_row (state, code);
CREATE INDEX held_row_hash ON held_row (raw_hash);

CREATE TABLE setting (
  name TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT;

CREATE TABLE taught_text (
  text TEXT PRIMARY KEY,
  reading TEXT NOT NULL,
  taught_at TEXT NOT NULL,
  taught_by TEXT NOT NULL
) STRICT;

CREATE TABLE answered_request (
  key TEXT PRIMARY KEY,
  route TEXT NOT NULL,
  status INTEGER NOT NULL,
  body TEXT NOT NULL,
  made_at TEXT NOT NULL
) STRICT;

CREATE TABLE revision (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  number INTEGER NOT NULL
) STRICT;
INSERT INTO revision (id, number) VALUES (1, 1);
`;
