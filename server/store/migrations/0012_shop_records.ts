/** What goes on and off the shelf, and what a shop has beside bays and people. Frozen text. */
export const shopRecordTables = `
CREATE TABLE stock_movement (
  id INTEGER PRIMARY KEY,
  item TEXT NOT NULL CHECK (length(trim(item)) > 0),
  site TEXT NOT NULL,
  quantity REAL NOT NULL CHECK (quantity <> 0),
  on_day TEXT NOT NULL CHECK (on_day GLOB '????-??-??'),
  after_batch INTEGER NOT NULL,
  batch_id INTEGER REFERENCES batch (id),
  who TEXT NOT NULL CHECK (length(trim(who)) >= 2),
  note TEXT,
  made_at TEXT NOT NULL
) STRICT;
CREATE INDEX stock_movement_item ON stock_movement (site, item);
CREATE TABLE shop_resource (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('holiday', 'outside_shop', 'loan_unit')),
  body TEXT NOT NULL CHECK (json_valid(body)),
  made_at TEXT NOT NULL,
  made_by TEXT NOT NULL CHECK (length(trim(made_by)) >= 2),
  ended_at TEXT,
  ended_by TEXT,
  CHECK ((ended_at IS NULL) = (ended_by IS NULL))
) STRICT;
`;
