/** Photos of findings, kept in the store; they go with their finding. Frozen text. */
export const photoTables = `
CREATE TABLE photo (
  id INTEGER PRIMARY KEY,
  finding_id INTEGER NOT NULL REFERENCES findings (id) ON DELETE CASCADE,
  type TEXT NOT NULL CHECK (type IN ('image/jpeg', 'image/png', 'image/webp')),
  content BLOB NOT NULL CHECK (length(content) BETWEEN 12 AND 8388608),
  content_hash TEXT NOT NULL,
  added_by TEXT NOT NULL CHECK (length(trim(added_by)) >= 2),
  added_at TEXT NOT NULL,
  UNIQUE (finding_id, content_hash)
) STRICT;
`;
