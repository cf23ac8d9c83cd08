import type { Visit } from '../../models/schema/visit.ts';
import type { Store } from './openStore.ts';
import { undoBatch } from './undoBatch.ts';
import { findVisit, movesOfVisit, VisitConflict } from './visits.ts';

/** A change that can't be taken back; says why. */
export class UndoRefused extends Error {}

interface Undoable {
  readonly id: number;
  readonly before: string | null;
  readonly words: string;
}

/**
 * Takes the last standing change of a visit back as a new version; the records of a closed card go with it, all or
 * nothing. Taking a request back removes the visit from the lists.
 * @returns the visit, or null when its request itself was taken back
 * @throws VisitConflict when someone changed it before; UndoRefused when later records rest on the card's
 */
export function undoVisitMove(
  store: Store,
  seen: { readonly id: number; readonly version: number },
  by: string,
  at: string,
): Visit | null {
  const { sqlite } = store;
  return sqlite.transaction(() => {
    const now = findVisit(store, seen.id);
    if (now === null) throw new Error(`visit must exist, got ${seen.id}`);
    if (now.version !== seen.version)
      throw new VisitConflict(now, movesOfVisit(store, seen.id, seen.version).reverse());
    const last = sqlite
      .prepare(
        `SELECT id, before, words FROM visit_move WHERE visit_id = ? AND undone = 0 AND words NOT LIKE 'taken back: %'
         ORDER BY version DESC LIMIT 1`,
      )
      .get(seen.id) as Undoable | undefined;
    if (last === undefined) throw new UndoRefused('There is no change left to take back.');
    sqlite.prepare('UPDATE visit_move SET undone = 1 WHERE id = ?').run(last.id);
    if (now.state === 'done' && now.batch !== null && !now.batchTakenBack) {
      const result = undoBatch(store, now.batch, at);
      if ('refused' in result) throw new UndoRefused(result.refused);
    }
    if (now.state === 'done') sqlite.prepare('DELETE FROM oil_entry WHERE visit_id = ?').run(seen.id);
    if (last.before === null)
      sqlite.prepare('UPDATE visit SET cancelled = 1, version = version + 1 WHERE id = ?').run(seen.id);
    else
      sqlite
        .prepare(
          `UPDATE visit SET plan_visit_id = @planVisitId, site = @site, place = @place, outside_shop = @outsideShop,
           bay = @bay, technician = @technician, on_day = @on, last_day = @lastDay, start_minute = @startMinute,
           end_minute = @endMinute, starts_at = @startsAt, ends_at = @endsAt, jobs = @jobs, state = @state,
           planned_hours = @plannedHours, planned_cents = @plannedCents, actual_hours = @actualHours,
           actual_cents = @actualCents, batch_id = @batch, version = version + 1 WHERE id = @id`,
        )
        .run({ ...(JSON.parse(last.before) as Record<string, unknown>), id: seen.id });
    const after = sqlite.prepare('SELECT state, version FROM visit WHERE id = ?').get(seen.id) as {
      state: string;
      version: number;
    };
    sqlite
      .prepare(
        `INSERT INTO visit_move (visit_id, version, from_state, to_state, moved_at, moved_by, words, undone)
         VALUES (?, ?, ?, ?, ?, ?, ?, 0)`,
      )
      .run(seen.id, after.version, null, after.state, at, by, `taken back: ${last.words}`);
    return findVisit(store, seen.id);
  })();
}
