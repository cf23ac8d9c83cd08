/** Versions of the fleet's failure model: what was learned, from which records, and what moved against the one before. Frozen text. */
export const fitVersionTables = `
CREATE TABLE fit_version (
  id INTEGER PRIMARY KEY,
  version TEXT NOT NULL,
  as_of TEXT NOT NULL,
  made_at TEXT NOT NULL,
  summary TEXT NOT NULL,
  changes TEXT NOT NULL
) STRICT;
`;
