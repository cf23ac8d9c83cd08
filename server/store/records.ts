import { columnsOf, type Column } from '../../models/schema/columns.ts';
import { kindTable, type RecordKind } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';

/** A record as models/intake made it: field → value, metric, validated. */
export type PlainRecord = Readonly<Record<string, unknown>>;

/** Column names that SQL would take for words of its own. */
const quoted = (column: Column): string =>
  column.name === 'from' || column.name === 'to' ? `"${column.name}"` : column.name;

/** When a record became known: recorded_on, else (for samples) the report, else its own date; null = always. */
export function knownOn(kind: RecordKind, record: PlainRecord): string | null {
  const recorded = (record.recordedOn ?? (kind === 'samples' ? record.reportedOn : null)) as string | null;
  const dateField = kindTable[kind].dateField;
  return recorded ?? ((dateField === null ? null : record[dateField]) as string | null) ?? null;
}

/** A 52-bit hash (two FNV-1a runs, common practice) of a row's text; equal rows have equal fingerprints. */
export function fingerprintOf(parts: readonly unknown[]): number {
  let low = 0x811c9dc5;
  let high = 0xcbf29ce4;
  for (const part of parts) {
    const text = part === null || part === undefined ? '' : String(part);
    for (let i = 0; i < text.length; i += 1) {
      const unit = text.charCodeAt(i);
      low = Math.imul(low ^ unit, 0x01000193);
      high = Math.imul(high ^ unit, 0x01000197);
    }
    low = Math.imul(low ^ 0x1f, 0x01000193);
    high = Math.imul(high ^ 0x1e, 0x01000197);
  }
  return (high >>> 0) * 0x100000 + ((low >>> 0) & 0xfffff);
}

/** Writes records of one kind; prepared once, used for every row of a file. */
export interface RecordWriter {
  readonly fields: readonly string[];
  insert(fileId: number, line: number, raw: string, record: PlainRecord, fingerprint: number): number;
}

/** @param filled fields that can hold a value; the others stay null. All where not given */
export function recordWriter(store: Store, kind: RecordKind, filled?: readonly string[]): RecordWriter {
  const every = columnsOf(kind);
  const columns = filled === undefined ? every : every.filter(({ field }) => filled.includes(field));
  const names = ['file_id', 'line', 'known_on', 'fingerprint', 'raw', ...columns.map(quoted)];
  const statement = store.sqlite.prepare(
    `INSERT INTO ${kind} (${names.join(', ')}) VALUES (${names.map(() => '?').join(', ')})`,
  );
  const fields = columns.map((column) => column.field);
  const flags = columns.map((column) => column.type === 'flag');
  const values: unknown[] = new Array(names.length);
  return {
    fields: every.map((column) => column.field),
    insert(fileId, line, raw, record, fingerprint) {
      values[0] = fileId;
      values[1] = line;
      values[2] = knownOn(kind, record);
      values[3] = fingerprint;
      values[4] = raw;
      for (let i = 0; i < fields.length; i += 1) {
        const value = record[fields[i]] ?? null;
        values[5 + i] = flags[i] && value !== null ? Number(value) : value;
      }
      return Number(statement.run(values).lastInsertRowid);
    },
  };
}

/** A record read back, with the place it came from. */
export interface ReadRecord<T> {
  readonly id: number;
  readonly fileId: number;
  readonly line: number;
  readonly record: T;
}

/** Prepares a query that reads the columns of a kind back into records; `where` ends with the order. */
export function recordReader<T>(
  store: Store,
  kind: RecordKind,
  where: string,
): (...parameters: readonly unknown[]) => Generator<ReadRecord<T>> {
  const columns = columnsOf(kind);
  const statement = store.sqlite
    .prepare(
      `SELECT t.id, t.file_id, t.line, ${columns.map((c) => `t.${quoted(c)}`).join(', ')} FROM ${kind} t ${where}`,
    )
    .raw();
  const fields = columns.map((column) => column.field);
  const flags = columns.map((column) => column.type === 'flag');
  return function* (...parameters) {
    for (const row of statement.iterate(...parameters) as IterableIterator<unknown[]>) {
      const record: Record<string, unknown> = {};
      for (let i = 0; i < fields.length; i += 1) {
        const value = row[3 + i];
        record[fields[i]] = flags[i] && value !== null ? value === 1 : value;
      }
      yield { id: row[0] as number, fileId: row[1] as number, line: row[2] as number, record: record as T };
    }
  };
}

/** Reads the columns of a kind back into records, in the order that `where` ends with. */
export function readRecords<T>(
  store: Store,
  kind: RecordKind,
  where: string,
  parameters: readonly unknown[],
): Generator<ReadRecord<T>> {
  return recordReader<T>(store, kind, where)(...parameters);
}
