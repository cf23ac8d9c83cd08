import type { RecordKind } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';
import { fingerprintOf, recordWriter, type PlainRecord, type RecordWriter } from './records.ts';

/** A row that waits, as it is written down. */
export interface HeldEntry {
  readonly fileId: number;
  readonly line: number;
  readonly kind: RecordKind;
  readonly unitNumber: string | null;
  readonly code: string;
  readonly message: string;
  readonly mend: string | null;
  /** the row's cells with that mend; null when there is none to write into them */
  readonly mendCells?: readonly string[] | null;
  /** the row's cells as JSON */
  readonly raw: string;
  readonly state: 'held' | 'skipped';
}

/** Writes rows of files as records or as held rows, inside whatever transaction is open; statements prepared once. */
export interface RowWriter {
  accept(fileId: number, line: number, raw: string, kind: RecordKind, record: PlainRecord): number;
  hold(entry: HeldEntry): void;
  fingerprint(kind: RecordKind, record: PlainRecord): number;
}

/** Hash by which a held row is known again. */
export function heldHash(kind: RecordKind, raw: string): number {
  return fingerprintOf([kind, raw]);
}

export function rowWriter(store: Store): RowWriter {
  const writers = new Map<RecordKind, RecordWriter>();
  const writerOf = (kind: RecordKind): RecordWriter => {
    const known = writers.get(kind);
    if (known !== undefined) return known;
    const made = recordWriter(store, kind);
    writers.set(kind, made);
    return made;
  };
  const hold = store.sqlite.prepare(
    'INSERT INTO held_row (file_id, line, kind, unit_number, code, message, mend, mend_cells, raw, raw_hash, state) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)',
  );
  const parts: unknown[] = [];
  const writer: RowWriter = {
    accept: (fileId, line, raw, kind, record) =>
      writerOf(kind).insert(fileId, line, raw, record, writer.fingerprint(kind, record)),
    hold: (entry) =>
      void hold.run(
        entry.fileId,
        entry.line,
        entry.kind,
        entry.unitNumber,
        entry.code,
        entry.message,
        entry.mend,
        entry.mendCells === undefined || entry.mendCells === null ? null : JSON.stringify(entry.mendCells),
        entry.raw,
        heldHash(entry.kind, entry.raw),
        entry.state,
      ),
    fingerprint(kind, record) {
      const { fields } = writerOf(kind);
      for (let i = 0; i < fields.length; i += 1) parts[i] = record[fields[i]];
      parts.length = fields.length;
      return fingerprintOf(parts);
    },
  };
  return writer;
}
