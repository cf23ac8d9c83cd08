import type { RecordKind } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';

/** Fewer rows than this are sorted into the indexes one by one. */
const bulkFrom = 20_000;

/** Indexes of record tables while many rows come in: set aside, and made anew in one go, inside the same transaction. */
export interface BulkIndexes {
  /** notes one more row of a kind */
  count(kind: RecordKind): void;
  /** makes all indexes that were set aside */
  restore(): void;
}

export function bulkIndexes(store: Store): BulkIndexes {
  const { sqlite } = store;
  const counts = new Map<RecordKind, number>();
  const aside: string[] = [];
  const setAside = (kind: RecordKind): void => {
    const rows = Number(sqlite.prepare(`SELECT max(id) FROM ${kind}`).pluck().get() ?? 0);
    // sorting all rows anew pays only where the new ones are a good part of them
    if (rows > 4 * bulkFrom) return;
    const indexes = sqlite
      .prepare(
        `SELECT name, sql FROM sqlite_master WHERE type = 'index' AND tbl_name = ? AND sql IS NOT NULL`,
      )
      .all(kind) as { name: string; sql: string }[];
    for (const { name, sql } of indexes) {
      sqlite.exec(`DROP INDEX ${name}`);
      aside.push(sql);
    }
  };
  return {
    count(kind) {
      const count = (counts.get(kind) ?? 0) + 1;
      counts.set(kind, count);
      if (count === bulkFrom) setAside(kind);
    },
    restore() {
      for (const sql of aside.splice(0)) sqlite.exec(sql);
    },
  };
}
