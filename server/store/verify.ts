import { recordKinds } from '../../models/schema/kinds.ts';
import type { Verification } from '../../models/schema/intake.ts';
import type { Store } from './openStore.ts';

/** Rows of every file by what became of them. */
export interface FileCounts {
  readonly fileId: number;
  readonly accepted: number;
  readonly duplicates: number;
  readonly held: number;
  readonly rejected: number;
}

/** Counts what became of each file's rows, from the rows themselves. */
export function countFiles(store: Store, batchId?: number): Map<number, FileCounts> {
  const only =
    batchId === undefined
      ? ''
      : `WHERE file_id IN (SELECT id FROM intake_file WHERE batch_id = ${Number(batchId)})`;
  const tally = (text: string): Map<number, number> =>
    new Map((store.sqlite.prepare(text).all() as { f: number; n: number }[]).map((row) => [row.f, row.n]));
  const accepted = new Map<number, number>();
  for (const kind of recordKinds)
    for (const [file, n] of tally(`SELECT file_id AS f, count(*) AS n FROM ${kind} ${only} GROUP BY file_id`))
      accepted.set(file, (accepted.get(file) ?? 0) + n);
  const duplicates = tally(`SELECT file_id AS f, count(*) AS n FROM duplicate_row ${only} GROUP BY file_id`);
  const and = only === '' ? 'WHERE' : `${only} AND`;
  const held = tally(
    `SELECT file_id AS f, count(*) AS n FROM held_row ${and} state = 'held' GROUP BY file_id`,
  );
  const rejected = tally(
    `SELECT file_id AS f, count(*) AS n FROM held_row ${and} state IN ('rejected', 'skipped') GROUP BY file_id`,
  );
  const files = store.sqlite
    .prepare(
      `SELECT id FROM intake_file ${batchId === undefined ? '' : `WHERE batch_id = ${Number(batchId)}`}`,
    )
    .all() as { id: number }[];
  return new Map(
    files.map(({ id }) => [
      id,
      {
        fileId: id,
        accepted: accepted.get(id) ?? 0,
        duplicates: duplicates.get(id) ?? 0,
        held: held.get(id) ?? 0,
        rejected: rejected.get(id) ?? 0,
      },
    ]),
  );
}

/** Proves that the database is sound and that rows read = accepted + duplicate + held + rejected for every file. */
export function verifyStore(store: Store): Verification {
  const problems: string[] = [];
  for (const row of store.sqlite.pragma('integrity_check') as { integrity_check: string }[])
    if (row.integrity_check !== 'ok') problems.push(`integrity: ${row.integrity_check}`);
  for (const row of store.sqlite.pragma('foreign_key_check') as { table: string; rowid: number }[])
    problems.push(`foreign key: row ${row.rowid} of ${row.table} points to nothing`);
  const counts = countFiles(store);
  const files = store.sqlite
    .prepare(
      'SELECT f.id, f.name, f.rows_read AS rowsRead FROM intake_file f JOIN batch b ON b.id = f.batch_id WHERE b.undone_at IS NULL',
    )
    .all() as { id: number; name: string; rowsRead: number }[];
  const total = { rowsRead: 0, accepted: 0, duplicates: 0, held: 0, rejected: 0 };
  for (const file of files) {
    const count = counts.get(file.id);
    if (count === undefined) continue;
    const sum = count.accepted + count.duplicates + count.held + count.rejected;
    if (sum !== file.rowsRead)
      problems.push(`${file.name}: ${file.rowsRead} rows were read but ${sum} are accounted for`);
    total.rowsRead += file.rowsRead;
    total.accepted += count.accepted;
    total.duplicates += count.duplicates;
    total.held += count.held;
    total.rejected += count.rejected;
  }
  return { ok: problems.length === 0, files: files.length, ...total, problems };
}
