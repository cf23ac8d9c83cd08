/** Column maps that people confirmed, each under a name and for one layout. Frozen text. */
export const columnMapTables = `
CREATE TABLE column_map (
  name TEXT PRIMARY KEY CHECK (length(trim(name)) >= 1),
  layout TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  columns TEXT NOT NULL,
  made_at TEXT NOT NULL,
  made_by TEXT NOT NULL
) STRICT;
`;
