import type { HeldAction } from '../../models/schema/intake.ts';
import type { RecordKind } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';

/** A row that waits, with how its file's columns were understood. */
export interface WaitingRow {
  readonly id: number;
  readonly fileId: number;
  readonly line: number;
  readonly kind: RecordKind;
  readonly code: string;
  readonly raw: string;
  readonly mended: string | null;
  /** the cells with the suggested mend, as JSON; null without one */
  readonly mendCells: string | null;
  readonly columnMap: string;
  readonly state: 'held' | 'accepted' | 'rejected' | 'skipped';
}

/** Reads waiting rows; what narrows them follows. */
export const selectWaiting = `SELECT h.id, h.file_id AS fileId, h.line, h.kind, h.code, h.raw, h.mended, h.mend_cells AS mendCells, f.column_map AS columnMap, h.state
  FROM held_row h JOIN intake_file f ON f.id = h.file_id`;

/** Rows held for one of the given reasons, in order of arrival. */
export function waitingFor(
  store: Store,
  codes: readonly string[],
  batch: number | null = null,
): WaitingRow[] {
  const marks = codes.map(() => '?').join(', ');
  return store.sqlite
    .prepare(
      `${selectWaiting} WHERE h.state = 'held' AND h.code IN (${marks}) AND (? IS NULL OR f.batch_id = ?) ORDER BY h.id`,
    )
    .all(...codes, batch, batch) as WaitingRow[];
}

/** One held row with its map, or null. */
export function waitingRow(store: Store, id: number): WaitingRow | null {
  return (store.sqlite.prepare(`${selectWaiting} WHERE h.id = ?`).get(id) as WaitingRow | undefined) ?? null;
}

/** Removes a held entry whose row has become a record of its own file. */
export function releaseHeld(store: Store, id: number): void {
  store.sqlite.prepare('DELETE FROM held_row WHERE id = ?').run(id);
}

const stateAfter = { accept: 'accepted', mend: 'accepted', reject: 'rejected', reopen: 'held' } as const;

/** Notes a person's decision on a held row; earlier ones stay on record. */
export function noteDecision(
  store: Store,
  row: Pick<WaitingRow, 'id' | 'fileId' | 'line'>,
  action: HeldAction,
  mended: string | null,
  by: string,
  at: string,
): void {
  store.sqlite
    .prepare('UPDATE held_row SET state = ?, mended = ?, decided_by = ?, decided_at = ? WHERE id = ?')
    .run(stateAfter[action], mended, by, at, row.id);
  store.sqlite
    .prepare(
      'INSERT INTO held_decision (file_id, line, action, mended, decided_by, decided_at) VALUES (?, ?, ?, ?, ?, ?)',
    )
    .run(row.fileId, row.line, action, mended, by, at);
}

/** Removes the record that came from one line of a file. */
export function removeRecordOfLine(store: Store, kind: RecordKind, fileId: number, line: number): number {
  return store.sqlite.prepare(`DELETE FROM ${kind} WHERE file_id = ? AND line = ?`).run(fileId, line).changes;
}
