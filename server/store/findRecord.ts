import type { z } from 'zod';
import { recordKinds, type RecordKind } from '../../models/schema/kinds.ts';
import type { recordResponse } from '../../models/schema/endpoints.ts';
import type { Store } from './openStore.ts';
import { readRecords } from './records.ts';

/** One record with the row it came from, or null. */
export function findRecord(store: Store, kind: string, id: number): z.infer<typeof recordResponse> | null {
  if (!(recordKinds as readonly string[]).includes(kind) || !Number.isInteger(id)) return null;
  const [found] = readRecords<Record<string, unknown>>(store, kind as RecordKind, 'WHERE t.id = ?', [id]);
  if (found === undefined) return null;
  const file = store.sqlite
    .prepare(
      `SELECT f.name, f.sheet, f.batch_id AS batch, f.header, r.raw FROM ${kind} r JOIN intake_file f ON f.id = r.file_id WHERE r.id = ?`,
    )
    .get(id) as { name: string; sheet: string | null; batch: number; header: string; raw: string };
  return {
    kind,
    id,
    batch: String(file.batch),
    file: file.sheet === null ? file.name : `${file.name}#${file.sheet}`,
    line: found.line,
    header: JSON.parse(file.header) as string[],
    cells: JSON.parse(file.raw) as string[],
    fields: found.record,
  };
}
