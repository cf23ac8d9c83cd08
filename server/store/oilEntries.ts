import type { OilEntry } from '../../models/schema/shopEndpoints.ts';
import type { Store } from './openStore.ts';

/** Writes one entry of used or bulk oil down. */
export function addOilEntry(store: Store, entry: Omit<OilEntry, 'id'>, at: string): OilEntry {
  const { lastInsertRowid } = store.sqlite
    .prepare(
      `INSERT INTO oil_entry (kind, on_day, site, grade, liters, who, note, visit_id, made_at)
       VALUES (@kind, @on, @site, @grade, @liters, @who, @note, @visitId, @at)`,
    )
    .run({ ...entry, at });
  return { id: Number(lastInsertRowid), ...entry };
}

/** Used oil collected and picked up, bulk oil drawn; newest first. What a card collected goes with its batch. */
export function listOilEntries(store: Store, site: string | null): OilEntry[] {
  return store.sqlite
    .prepare(
      `SELECT e.id, e.kind, e.on_day AS "on", e.site, e.grade, e.liters, e.who, e.note, e.visit_id AS visitId
       FROM oil_entry e LEFT JOIN visit v ON v.id = e.visit_id LEFT JOIN batch b ON b.id = v.batch_id
       WHERE b.undone_at IS NULL AND (@site IS NULL OR e.site = @site COLLATE NOCASE)
       ORDER BY e.on_day DESC, e.id DESC`,
    )
    .all({ site }) as OilEntry[];
}

/** Oil that closed cards filled, by site and grade; cards that were taken back don't count. */
export function oilFilledByCards(store: Store): { site: string | null; grade: string; liters: number }[] {
  return store.sqlite
    .prepare(
      `SELECT v.site AS site, json_extract(v.card, '$.oil.grade') AS grade,
       sum(json_extract(v.card, '$.oil.amountL')) AS liters
       FROM visit v JOIN batch b ON b.id = v.batch_id
       WHERE v.state = 'done' AND v.cancelled = 0 AND b.undone_at IS NULL
       AND json_extract(v.card, '$.oil.grade') IS NOT NULL GROUP BY v.site, grade`,
    )
    .all() as { site: string | null; grade: string; liters: number }[];
}
