import { columnsOf } from '../../models/schema/columns.ts';
import { kindTable } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';
import { sequenceKinds, type SequenceKind } from './unitRows.ts';

/** File, day, odometer, hours, idle hours, fuel (a meter in readings, a fill in fuel), work text of one record. */
export type MeterRow = readonly [
  fileId: number,
  on: string,
  odometerKm: number | null,
  engineHoursH: number | null,
  idleHoursH: number | null,
  fuelL: number | null,
  work: string | null,
];

/** Reads what the checks over time look at of one unit's records, by kind; prepared once. */
export function meterRowReader(store: Store): (kind: SequenceKind, unitNumber: string) => MeterRow[] {
  const statements = new Map(
    sequenceKinds.map((kind) => {
      const columns = columnsOf(kind);
      const named = (field: string): string =>
        columns.find((column) => column.field === field)?.name ?? 'NULL';
      const on = named(kindTable[kind].dateField ?? '');
      const fields = [on, ...['odometerKm', 'engineHoursH', 'idleHoursH', 'fuelL', 'work'].map(named)];
      return [
        kind,
        store.sqlite.prepare(`SELECT file_id, ${fields.join(', ')} FROM ${kind} WHERE unit_number = ?`).raw(),
      ];
    }),
  );
  return (kind, unitNumber) => (statements.get(kind)?.all(unitNumber) ?? []) as MeterRow[];
}

/** Units whose records have to be looked at in full: a row waits, was decided on, or came again as a correction. */
export function unitsToLookAt(store: Store, codes: readonly string[]): Set<string> {
  const marks = codes.map(() => '?').join(', ');
  const units = store.sqlite
    .prepare(`SELECT DISTINCT unit_number FROM held_row WHERE state = 'held' AND code IN (${marks})`)
    .pluck()
    .all(...codes) as (string | null)[];
  for (const kind of sequenceKinds)
    units.push(
      ...(store.sqlite
        .prepare(
          `SELECT DISTINCT unit_number FROM ${kind} WHERE record_id IN
           (SELECT record_id FROM ${kind} WHERE record_id IS NOT NULL GROUP BY record_id HAVING count(*) > 1)`,
        )
        .pluck()
        .all() as string[]),
    );
  return new Set(units.filter((unit) => unit !== null));
}
