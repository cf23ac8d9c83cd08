import type { UnitSpan } from '../../models/intake/checkRecord.ts';
import type { Recognised } from '../../models/intake/recognised.ts';
import type { RecordKind } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';
import { recordReader, type PlainRecord } from './records.ts';
import { selectWaiting, type WaitingRow } from './heldDecisions.ts';

/** Kinds whose rows carry a unit's meters or visits. */
export const sequenceKinds = [
  'readings',
  'fuel',
  'service',
  'samples',
  'findings',
  'codes',
] as const satisfies readonly RecordKind[];
export type SequenceKind = (typeof sequenceKinds)[number];

/** A record of a unit with the place it came from. */
export interface PlacedRow {
  readonly id: number;
  readonly kind: SequenceKind;
  readonly fileId: number;
  readonly line: number;
  readonly record: PlainRecord;
}

/** Reads the newest version of every record of one unit number, in order of kind and id; prepared once. */
export function unitRowReader(store: Store): (unitNumber: string) => PlacedRow[] {
  const readers = sequenceKinds.map((kind) => ({
    kind,
    read: recordReader<PlainRecord>(
      store,
      kind,
      `WHERE t.unit_number = ? AND (t.record_id IS NULL OR NOT EXISTS
       (SELECT 1 FROM ${kind} n WHERE n.record_id = t.record_id AND n.id > t.id)) ORDER BY t.id`,
    ),
  }));
  return (unitNumber) => {
    const rows: PlacedRow[] = [];
    for (const { kind, read } of readers)
      for (const { id, fileId, line, record } of read(unitNumber))
        rows.push({ id, fileId, line, record, kind });
    return rows;
  };
}

/** Reads the spans of all holders of a unit number, earliest first; a later row of the same span replaces an earlier one. */
export function spanReader(store: Store): (unitNumber: string) => UnitSpan[] {
  const statement = store.sqlite.prepare(
    `SELECT in_service_on AS inServiceOn, in_service_odometer_km AS inServiceOdometerKm, disposed_on AS disposedOn,
     coalesce(in_service_on, vin, '') AS span FROM units WHERE unit_number = ? ORDER BY id`,
  );
  return (unitNumber) => {
    const rows = statement.all(unitNumber) as (UnitSpan & { span: string })[];
    const spans = new Map(rows.map(({ span, ...rest }) => [span, rest]));
    return [...spans.values()].sort((a, b) => ((a.inServiceOn ?? '') < (b.inServiceOn ?? '') ? -1 : 1));
  };
}

/** Files and lines of records that a person took in as they are or mended. */
export function trustedPlaces(store: Store): Set<string> {
  const rows = store.sqlite
    .prepare(`SELECT file_id || ':' || line FROM held_row WHERE state = 'accepted'`)
    .pluck()
    .iterate() as IterableIterator<string>;
  return new Set(rows);
}

/** Reads how the columns of a file were understood; each file is looked up once. */
export function fileMapReader(store: Store): (fileId: number) => Recognised {
  const statement = store.sqlite.prepare('SELECT column_map FROM intake_file WHERE id = ?').pluck();
  const known = new Map<number, Recognised>();
  return (fileId) => {
    const before = known.get(fileId);
    if (before !== undefined) return before;
    const made = JSON.parse(statement.get(fileId) as string) as Recognised;
    known.set(fileId, made);
    return made;
  };
}

/** The original cells of a record's row, as JSON. */
export function rawOfRow(store: Store, kind: SequenceKind, id: number): string {
  return store.sqlite.prepare(`SELECT raw FROM ${kind} WHERE id = ?`).pluck().get(id) as string;
}

/** Removes one record; its row is to be held. */
export function removeRow(store: Store, kind: SequenceKind, id: number): void {
  store.sqlite.prepare(`DELETE FROM ${kind} WHERE id = ?`).run(id);
}

/** Reads the rows of a unit that wait because of what the checks over time found; prepared once. */
export function waitingReader(store: Store, codes: readonly string[]): (unitNumber: string) => WaitingRow[] {
  const marks = codes.map(() => '?').join(', ');
  const statement = store.sqlite.prepare(
    `${selectWaiting}
     WHERE h.state = 'held' AND h.unit_number = ? AND h.code IN (${marks}) ORDER BY h.id`,
  );
  return (unitNumber) => statement.all(unitNumber, ...codes) as WaitingRow[];
}
