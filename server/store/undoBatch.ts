import { columnsOf } from '../../models/schema/columns.ts';
import { recordKinds } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';
import { correctedSince, giveBack } from './replacedRows.ts';

export type UndoResult = { batch: string; removed: number } | { refused: string };

/**
 * Takes a batch back whole. A record that a later file repeated stays and becomes that file's row. Refuses where a
 * later batch rests on units that only this batch brought, or corrects what this batch corrected.
 */
export function undoBatch(store: Store, batch: string, at: string): UndoResult {
  const { sqlite } = store;
  const id = Number(batch);
  const found = Number.isInteger(id)
    ? (sqlite.prepare('SELECT id, undone_at FROM batch WHERE id = ?').get(id) as
        { undone_at: string | null } | undefined)
    : undefined;
  if (found === undefined) return { refused: `batch: there is no batch ${batch}; see the list of intakes` };
  if (found.undone_at !== null)
    return { refused: `batch: ${batch} was taken back already on ${found.undone_at}` };
  const own = 'SELECT id FROM intake_file WHERE batch_id = ?';
  const run = (): UndoResult => {
    for (const kind of recordKinds) handOver(store, kind, own, id);
    const resting = restingOn(store, own, id);
    if (resting !== null) return { refused: resting };
    const later = correctedSince(store, id);
    if (later !== null)
      return {
        refused: `batch: batch ${later} corrects rows with which ${batch} had corrected earlier ones; take batch ${later} back first`,
      };
    let removed = 0;
    for (const kind of recordKinds)
      removed += sqlite.prepare(`DELETE FROM ${kind} WHERE file_id IN (${own})`).run(id).changes;
    sqlite.prepare(`DELETE FROM duplicate_row WHERE file_id IN (${own})`).run(id);
    sqlite.prepare(`DELETE FROM held_row WHERE file_id IN (${own})`).run(id);
    sqlite.prepare(`DELETE FROM held_decision WHERE file_id IN (${own})`).run(id);
    giveBack(store, id);
    sqlite.prepare('UPDATE batch SET undone_at = ? WHERE id = ?').run(at, id);
    sqlite.prepare('UPDATE revision SET number = number + 1').run();
    return { batch, removed };
  };
  // a refusal must leave the hand-over undone as well
  let result: UndoResult = { refused: '' };
  try {
    sqlite.transaction(() => {
      result = run();
      if ('refused' in result) throw new Rollback();
    })();
  } catch (error) {
    if (!(error instanceof Rollback)) throw error;
  }
  return result;
}

class Rollback extends Error {}

/** A record repeated by a later, standing file becomes that file's row, in place of the duplicate noted there. */
function handOver(store: Store, kind: string, own: string, batch: number): void {
  const rows = store.sqlite
    .prepare(
      `SELECT r.id AS record, min(d.id) AS duplicate FROM ${kind} r
       JOIN duplicate_row d ON d.fingerprint = r.fingerprint AND d.kind = '${kind}'
       WHERE r.file_id IN (${own}) AND d.file_id NOT IN (${own}) GROUP BY r.id`,
    )
    .all(batch, batch) as { record: number; duplicate: number }[];
  const place = store.sqlite.prepare(
    `UPDATE ${kind} SET (file_id, line, raw) = (SELECT file_id, line, raw FROM duplicate_row WHERE id = ?) WHERE id = ?`,
  );
  const drop = store.sqlite.prepare('DELETE FROM duplicate_row WHERE id = ?');
  const taken = new Set<number>();
  for (const { record, duplicate } of rows) {
    if (taken.has(duplicate)) continue;
    taken.add(duplicate);
    place.run(duplicate, record);
    drop.run(duplicate);
  }
}

/** Says which later records would lose their unit, or null. */
function restingOn(store: Store, own: string, batch: number): string | null {
  const lost = `SELECT lower(unit_number) FROM units WHERE file_id IN (${own})
    EXCEPT SELECT lower(unit_number) FROM units WHERE file_id NOT IN (${own})`;
  for (const kind of recordKinds) {
    if (kind === 'units' || !columnsOf(kind).some((column) => column.field === 'unitNumber')) continue;
    const row = store.sqlite
      .prepare(
        `SELECT count(*) AS n, min(f.batch_id) AS later FROM ${kind} r JOIN intake_file f ON f.id = r.file_id
         WHERE f.batch_id <> ? AND lower(r.unit_number) IN (${lost})`,
      )
      .get(batch, batch, batch) as { n: number; later: number | null };
    if (row.n > 0)
      return `batch: ${row.n} rows of ${kind} in batch ${row.later} rest on units that only batch ${batch} brought; take batch ${row.later} back first`;
  }
  return null;
}
