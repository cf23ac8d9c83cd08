import type { FlatRecords } from '../../models/assessment/assembleFleet.ts';
import type { Source, Sourced } from '../../models/schema/history.ts';
import type { RecordKind } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';
import { readRecords } from './records.ts';

/** File names and batches by file id, for the sources of records. */
function fileNames(store: Store): Map<number, { file: string; batch: string }> {
  const rows = store.sqlite.prepare('SELECT id, name, sheet, batch_id FROM intake_file').all() as {
    id: number;
    name: string;
    sheet: string | null;
    batch_id: number;
  }[];
  return new Map(
    rows.map((row) => [
      row.id,
      { file: row.sheet === null ? row.name : `${row.name}#${row.sheet}`, batch: String(row.batch_id) },
    ]),
  );
}

/** The newest version of each record that was known on the day; a key that came again replaces what it corrects. */
function known(kind: RecordKind, unit: boolean): string {
  const on = '(t.known_on IS NULL OR t.known_on <= ?)';
  const newest =
    `(t.record_id IS NULL OR NOT EXISTS (SELECT 1 FROM ${kind} n WHERE n.record_id = t.record_id AND n.id > t.id ` +
    'AND (n.known_on IS NULL OR n.known_on <= ?)))';
  return `WHERE ${on} AND ${newest}${unit ? ' AND t.unit_number = ?' : ''} ORDER BY t.id`;
}

/**
 * Reads every record that was known on a day.
 * @param asOf ISO date; a record counts when it was recorded (else dated) on or before it
 * @param only `unitNumber`: this number's records alone; `dated: false`: what the fleet is and has, without what happened
 */
export function loadFlatRecords(
  store: Store,
  asOf: string,
  { unitNumber, dated = true }: { readonly unitNumber?: string; readonly dated?: boolean } = {},
): FlatRecords {
  const files = fileNames(store);
  const read = <T>(kind: RecordKind, byUnit: boolean): Sourced<T>[] => {
    const only = byUnit && unitNumber !== undefined;
    const parameters: unknown[] = only ? [asOf, asOf, unitNumber] : [asOf, asOf];
    const list: Sourced<T>[] = [];
    for (const row of readRecords<T>(store, kind, known(kind, only), parameters)) {
      const place = files.get(row.fileId);
      const source: Source = {
        id: row.id,
        kind,
        batch: place?.batch ?? '',
        file: place?.file ?? '',
        line: row.line,
      };
      const record = row.record as Sourced<T> & { source: Source };
      record.source = source;
      list.push(record);
    }
    return list;
  };
  return {
    units: read('units', true),
    engines: read('engines', false),
    sites: read('sites', false),
    technicians: read('technicians', false),
    stock: read('stock', false),
    blackouts: read('blackouts', true),
    readings: dated ? read('readings', true) : [],
    fuel: dated ? read('fuel', true) : [],
    service: dated ? read('service', true) : [],
    samples: dated ? read('samples', true) : [],
    findings: dated ? read('findings', true) : [],
    codes: dated ? read('codes', true) : [],
  };
}

/** Tables of dated records with their day. */
export const datedTables = [
  ['readings', 'read_on'],
  ['fuel', 'filled_on'],
  ['service', 'serviced_on'],
  ['samples', 'sampled_on'],
  ['findings', 'found_on'],
  ['codes', 'seen_on'],
] as const;

/** The date of the newest dated record, or null for an empty store. */
export function newestRecordOn(store: Store, asOf: string): string | null {
  const parts = datedTables.map(
    ([table, column]) => `SELECT max(${column}) AS d FROM ${table} WHERE ${column} <= @asOf`,
  );
  const row = store.sqlite
    .prepare(`SELECT max(d) AS d FROM (${parts.join(' UNION ALL ')})`)
    .get({ asOf }) as {
    d: string | null;
  };
  return row.d;
}
