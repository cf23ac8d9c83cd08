import type { Store } from './openStore.ts';

/** How many rows of a batch wait for each reason, most first, with one of the messages. */
export function heldReasons(store: Store, batch: number): { code: string; count: number; message: string }[] {
  return store.sqlite
    .prepare(
      `SELECT h.code, count(*) AS count, min(h.message) AS message FROM held_row h
       JOIN intake_file f ON f.id = h.file_id WHERE f.batch_id = ? AND h.state = 'held'
       GROUP BY h.code ORDER BY count DESC, h.code`,
    )
    .all(batch) as { code: string; count: number; message: string }[];
}
