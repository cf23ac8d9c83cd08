import type { Store } from './openStore.ts';
import { patientWrite } from './patientWrite.ts';

/** Kept of each kind, about three changes back; the kind is what stands before the key's first bar. */
const kept = 24;

/** A result worked out before under this key, as JSON text, or null. */
export function findKeptResult(store: Store, key: string): string | null {
  const row = store.sqlite.prepare('SELECT body FROM kept_result WHERE key = ?').get(key) as
    { body: string } | undefined;
  return row?.body ?? null;
}

/**
 * The newest result whose key begins so and whose rest is wanted, with the moment at which it was made.
 * @param rest told what follows the beginning
 */
export function findFormerResult(
  store: Store,
  beginning: string,
  rest: (rest: string) => boolean,
): { body: string; madeAt: string } | null {
  const keys = store.sqlite
    .prepare('SELECT key FROM kept_result WHERE substr(key, 1, ?) = ? ORDER BY made_at DESC')
    .pluck()
    .all(beginning.length, beginning) as string[];
  const key = keys.find((one) => rest(one.slice(beginning.length)));
  if (key === undefined) return null;
  return store.sqlite.prepare('SELECT body, made_at AS madeAt FROM kept_result WHERE key = ?').get(key) as {
    body: string;
    madeAt: string;
  };
}

/**
 * Keeps a result under its key; the newest few of its kind stay. A worker waits for an intake that writes; on the main thread
 * it is not kept then, and worked out again.
 */
export function keepResult(store: Store, key: string, body: string, at: string): void {
  patientWrite(store, () => writeResult(store, key, body, at));
}

function writeResult(store: Store, key: string, body: string, at: string): void {
  const kind = key.slice(0, key.indexOf('|') + 1);
  store.sqlite
    .prepare(
      'INSERT INTO kept_result (key, body, made_at) VALUES (?, ?, ?) ON CONFLICT (key) DO UPDATE SET body = excluded.body, made_at = excluded.made_at',
    )
    .run(key, body, at);
  store.sqlite
    .prepare(
      `DELETE FROM kept_result WHERE substr(key, 1, ?) = ? AND key NOT IN
        (SELECT key FROM kept_result WHERE substr(key, 1, ?) = ? ORDER BY made_at DESC LIMIT ?)`,
    )
    .run(kind.length, kind, kind.length, kind, kept);
}
