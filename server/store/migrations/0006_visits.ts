/** Visits with every change of them, the log of used and bulk oil, and calendar feeds. Frozen text. */
export const visitTables = `
CREATE TABLE visit (
  id INTEGER PRIMARY KEY,
  plan_visit_id TEXT,
  unit_number TEXT NOT NULL CHECK (length(unit_number) > 0),
  site TEXT,
  place TEXT NOT NULL CHECK (place IN ('bay', 'outside', 'mobile')),
  outside_shop TEXT,
  bay TEXT,
  technician TEXT,
  on_day TEXT NOT NULL CHECK (on_day GLOB '????-??-??'),
  last_day TEXT NOT NULL CHECK (last_day GLOB '????-??-??'),
  start_minute INTEGER CHECK (start_minute BETWEEN 0 AND 1440),
  end_minute INTEGER CHECK (end_minute BETWEEN 0 AND 1440),
  starts_at TEXT,
  ends_at TEXT,
  jobs TEXT NOT NULL CHECK (json_valid(jobs)),
  state TEXT NOT NULL
    CHECK (state IN ('asked', 'booked', 'arrived', 'waiting_parts', 'done', 'put_off', 'did_not_come')),
  version INTEGER NOT NULL CHECK (version >= 1),
  planned_hours REAL,
  planned_cents INTEGER,
  actual_hours REAL,
  actual_cents INTEGER,
  batch_id INTEGER REFERENCES batch (id),
  card TEXT CHECK (card IS NULL OR json_valid(card)),
  cancelled INTEGER NOT NULL DEFAULT 0 CHECK (cancelled IN (0, 1)),
  CHECK (last_day >= on_day),
  CHECK (state <> 'done' OR batch_id IS NOT NULL)
) STRICT;
CREATE INDEX visit_day ON visit (on_day);
CREATE INDEX visit_unit ON visit (unit_number);
CREATE TABLE visit_move (
  id INTEGER PRIMARY KEY,
  visit_id INTEGER NOT NULL REFERENCES visit (id),
  version INTEGER NOT NULL,
  from_state TEXT,
  to_state TEXT NOT NULL,
  moved_at TEXT NOT NULL,
  moved_by TEXT NOT NULL CHECK (length(trim(moved_by)) >= 2),
  reason TEXT,
  approver TEXT,
  manager TEXT,
  new_date TEXT,
  risk TEXT,
  words TEXT NOT NULL,
  before TEXT CHECK (before IS NULL OR json_valid(before)),
  undone INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1)),
  CHECK (to_state <> 'put_off' OR undone = 1 OR from_state IS NULL
    OR (reason IS NOT NULL AND approver IS NOT NULL AND new_date IS NOT NULL AND risk IS NOT NULL)),
  UNIQUE (visit_id, version)
) STRICT;
CREATE TABLE oil_entry (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('collected', 'picked_up', 'bulk_drawn')),
  on_day TEXT NOT NULL CHECK (on_day GLOB '????-??-??'),
  site TEXT,
  grade TEXT,
  liters REAL NOT NULL CHECK (liters >= 0),
  who TEXT NOT NULL CHECK (length(trim(who)) >= 2),
  note TEXT,
  visit_id INTEGER REFERENCES visit (id),
  made_at TEXT NOT NULL
) STRICT;
CREATE TABLE calendar_feed (
  site TEXT PRIMARY KEY,
  token_hash TEXT NOT NULL UNIQUE,
  made_at TEXT NOT NULL,
  made_by TEXT NOT NULL
) STRICT;
`;
