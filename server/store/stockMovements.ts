import type { StockMovement } from '../../models/schema/shopRecordEndpoints.ts';
import type { Store } from './openStore.ts';

/** A movement as it is written; `batch` ties it to the intake of a card and makes it go with that. */
export interface NewMovement {
  readonly item: string;
  readonly site: string;
  /** below 0: taken off the shelf */
  readonly quantity: number;
  readonly on: string;
  readonly batch: string | null;
  readonly who: string;
  readonly note: string | null;
}

/** Notes what went on or off a shelf. */
export function addStockMovement(store: Store, movement: NewMovement, at: string): void {
  store.sqlite
    .prepare(
      `INSERT INTO stock_movement (item, site, quantity, on_day, after_batch, batch_id, who, note, made_at)
       VALUES (@item, @site, @quantity, @on, coalesce(@batch, (SELECT coalesce(max(id), 0) FROM batch)), @batch, @who,
       @note, @at)`,
    )
    .run({ ...movement, batch: movement.batch === null ? null : Number(movement.batch), at });
}

const standing = `FROM stock_movement m LEFT JOIN batch b ON b.id = m.batch_id WHERE b.undone_at IS NULL`;

/** Movements that stand, newest first; those of a card that was taken back are gone. */
export function listStockMovements(store: Store, most: number): StockMovement[] {
  return store.sqlite
    .prepare(
      `SELECT m.id, m.item, m.site, m.quantity, m.on_day AS "on", m.who, m.note ${standing}
       ORDER BY m.on_day DESC, m.id DESC LIMIT ?`,
    )
    .all(most) as StockMovement[];
}

interface Moved {
  readonly item: string;
  readonly site: string;
  readonly quantity: number;
  readonly on: string;
  readonly afterBatch: number;
}

const keyOf = (item: string, site: string): string => `${item.trim()}|${site.trim()}`.toLowerCase();

/** A count of the shelf: when it was taken and with which intake it came. */
export interface ShelfCount {
  readonly item: string;
  readonly site: string | null;
  readonly recordedOn: string | null;
  readonly batch: number;
}

/**
 * What moved since a count, by the count: movements of later days; those of the count's own day, or where it has none,
 * that were noted after it came in.
 * @param asOf ISO date; later movements are not known yet
 */
export function movedSince(store: Store, asOf: string): (count: ShelfCount) => number {
  const rows = store.sqlite
    .prepare(
      `SELECT m.item, m.site, m.quantity, m.on_day AS "on", m.after_batch AS afterBatch ${standing} AND m.on_day <= ?`,
    )
    .all(asOf) as Moved[];
  const moved = new Map<string, Moved[]>();
  for (const row of rows) {
    const key = keyOf(row.item, row.site);
    const list = moved.get(key);
    if (list === undefined) moved.set(key, [row]);
    else list.push(row);
  }
  return ({ item, site, recordedOn, batch }) =>
    (moved.get(keyOf(item, site ?? '')) ?? [])
      .filter(({ on, afterBatch }) =>
        recordedOn === null || recordedOn === on ? afterBatch >= batch : on > recordedOn,
      )
      .reduce((sum, { quantity }) => sum + quantity, 0);
}
