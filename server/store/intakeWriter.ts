import type { RecordKind } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';
import { bulkIndexes } from './bulkIndexes.ts';
import { recordWriter, type PlainRecord } from './records.ts';
import { rowWriter, type RowWriter } from './rowWriter.ts';

export interface FileEntry {
  readonly name: string;
  readonly sheet: string | null;
  readonly kind: RecordKind;
  readonly contentHash: string;
  readonly header: readonly string[];
  /** how the columns were understood, as JSON */
  readonly columnMap: string;
  readonly unknownColumns: readonly string[];
}

/** Writes one batch inside one transaction: all of it is kept, or nothing. */
export interface IntakeWriter extends RowWriter {
  readonly batch: number;
  addFile(entry: FileEntry): number;
  setRowsRead(fileId: number, rows: number): void;
  /** accepts rows whose only filled fields are these; binds no others */
  acceptor(
    kind: RecordKind,
    filled: readonly string[],
  ): (fileId: number, line: number, raw: string, record: PlainRecord, fingerprint: number) => number;
  duplicate(fileId: number, line: number, kind: RecordKind, fingerprint: number, raw: string): void;
  /** fingerprints of the rows of a kind that are there already */
  knownRows(kind: RecordKind): IterableIterator<number>;
  /** hashes of rows that wait, waited, or were rejected before */
  heldHashes(kind: RecordKind): IterableIterator<number>;
  /** unit numbers as first written, by lower case */
  unitNumbers(): Map<string, string>;
  /** says that all files are read; looking things up is quick again */
  endReading(): void;
  commit(): void;
  rollback(): void;
}

/** Begins a batch. The store must not be used for anything else until commit or rollback. */
export function beginIntake(store: Store, by: string, at: string): IntakeWriter {
  const { sqlite } = store;
  sqlite.exec('BEGIN IMMEDIATE');
  const batch = Number(
    sqlite.prepare('INSERT INTO batch (made_at, made_by) VALUES (?, ?)').run(at, by).lastInsertRowid,
  );
  const addFile = sqlite.prepare(
    'INSERT INTO intake_file (batch_id, name, sheet, kind, content_hash, header, column_map, unknown_columns, rows_read) VALUES (?, ?, ?, ?, ?, ?, ?, ?, 0)',
  );
  const setRows = sqlite.prepare('UPDATE intake_file SET rows_read = ? WHERE id = ?');
  const duplicate = sqlite.prepare(
    'INSERT INTO duplicate_row (file_id, line, kind, fingerprint, raw) VALUES (?, ?, ?, ?, ?)',
  );
  const indexes = bulkIndexes(store);
  return {
    ...rowWriter(store),
    batch,
    addFile: (entry) =>
      Number(
        addFile.run(
          batch,
          entry.name,
          entry.sheet,
          entry.kind,
          entry.contentHash,
          JSON.stringify(entry.header),
          entry.columnMap,
          JSON.stringify(entry.unknownColumns),
        ).lastInsertRowid,
      ),
    setRowsRead: (fileId, rows) => void setRows.run(rows, fileId),
    acceptor(kind, filled) {
      const { insert } = recordWriter(store, kind, filled);
      return (fileId, line, raw, record, fingerprint) => {
        indexes.count(kind);
        return insert(fileId, line, raw, record, fingerprint);
      };
    },
    duplicate: (fileId, line, kind, fingerprint, raw) =>
      void duplicate.run(fileId, line, kind, fingerprint, raw),
    knownRows: (kind) =>
      sqlite.prepare(`SELECT fingerprint FROM ${kind}`).pluck().iterate() as IterableIterator<number>,
    heldHashes: (kind) =>
      sqlite
        .prepare(`SELECT raw_hash FROM held_row WHERE kind = ? AND state <> 'skipped'`)
        .pluck()
        .iterate(kind) as IterableIterator<number>,
    unitNumbers() {
      const rows = sqlite.prepare('SELECT unit_number FROM units ORDER BY id').pluck();
      const numbers = new Map<string, string>();
      for (const number of rows.iterate() as IterableIterator<string>)
        if (!numbers.has(number.toLowerCase())) numbers.set(number.toLowerCase(), number);
      return numbers;
    },
    endReading: () => indexes.restore(),
    commit() {
      sqlite.prepare('UPDATE revision SET number = number + 1').run();
      sqlite.exec('COMMIT');
    },
    rollback() {
      if (sqlite.inTransaction) sqlite.exec('ROLLBACK');
    },
  };
}
