import type { IntakeBatch } from '../../models/schema/intake.ts';
import type { Store } from './openStore.ts';
import { countFiles } from './verify.ts';

/** Intakes, newest first; files with what became of their rows as it stands now. */
export function listBatches(
  store: Store,
  before: number | null,
  limit: number,
): { batches: IntakeBatch[]; next: string | null } {
  const rows = store.sqlite
    .prepare(
      'SELECT id, made_at AS madeAt, made_by AS madeBy, undone_at AS undoneAt FROM batch WHERE id < ? ORDER BY id DESC LIMIT ?',
    )
    .all(before ?? Number.MAX_SAFE_INTEGER, limit) as {
    id: number;
    madeAt: string;
    madeBy: string;
    undoneAt: string | null;
  }[];
  const files = store.sqlite.prepare(
    'SELECT id, name, sheet, kind, rows_read AS rowsRead, unknown_columns AS unknownColumns FROM intake_file WHERE batch_id = ? ORDER BY id',
  );
  const batches = rows.map((row): IntakeBatch => {
    const counts = countFiles(store, row.id);
    return {
      batch: String(row.id),
      madeAt: row.madeAt,
      madeBy: row.madeBy,
      undoneAt: row.undoneAt,
      files: (
        files.all(row.id) as {
          id: number;
          name: string;
          sheet: string | null;
          kind: string;
          rowsRead: number;
          unknownColumns: string;
        }[]
      ).map((file) => {
        const count = counts.get(file.id);
        return {
          file: file.sheet === null ? file.name : `${file.name}#${file.sheet}`,
          kind: file.kind,
          rowsRead: file.rowsRead,
          accepted: count?.accepted ?? 0,
          duplicates: count?.duplicates ?? 0,
          held: count?.held ?? 0,
          rejected: count?.rejected ?? 0,
          unknownColumns: JSON.parse(file.unknownColumns) as string[],
        };
      }),
    };
  });
  return { batches, next: rows.length === limit ? String(rows[rows.length - 1].id) : null };
}
