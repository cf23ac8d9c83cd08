/** Assessments that were worked out before, kept until the records, the rules or the program change. Frozen text. */
export const keptResultTables = `
CREATE TABLE kept_result (
  key TEXT PRIMARY KEY,
  body TEXT NOT NULL,
  made_at TEXT NOT NULL
) STRICT;
`;
