import { taughtKey, type TaughtWorks } from '../../models/intake/workText.ts';
import { workKinds, type WorkKind } from '../../models/schema/service.ts';
import type { Store } from './openStore.ts';

/** One taught text as it is kept. */
export interface TaughtEntry {
  readonly text: string;
  readonly works: WorkKind[];
  readonly taughtAt: string;
  readonly taughtBy: string;
}

/** Texts that people taught, newest first. */
export function listTaught(store: Store): TaughtEntry[] {
  const rows = store.sqlite
    .prepare(
      'SELECT text, reading, taught_at AS taughtAt, taught_by AS taughtBy FROM taught_text ORDER BY taught_at DESC, text',
    )
    .all() as { text: string; reading: string; taughtAt: string; taughtBy: string }[];
  return rows.map(({ reading, ...row }) => ({
    ...row,
    works: (JSON.parse(reading) as string[]).filter((kind): kind is WorkKind =>
      (workKinds as readonly string[]).includes(kind),
    ),
  }));
}

/** Work texts that people have taught, by the key under which the reader looks them up. */
export function loadTaught(store: Store): TaughtWorks {
  return new Map(listTaught(store).map(({ text, works }) => [taughtKey(text), works]));
}

/** Keeps what a text means, in place of what was taught for it before. */
export function keepTaught(store: Store, entry: TaughtEntry): void {
  dropTaught(store, entry.text);
  store.sqlite
    .prepare('INSERT INTO taught_text (text, reading, taught_at, taught_by) VALUES (?, ?, ?, ?)')
    .run(entry.text, JSON.stringify(entry.works), entry.taughtAt, entry.taughtBy);
}

/** Forgets what was taught for a text in any spelling; returns how many entries that were. */
export function dropTaught(store: Store, text: string): number {
  const key = taughtKey(text);
  const same = listTaught(store).filter((entry) => taughtKey(entry.text) === key);
  const drop = store.sqlite.prepare('DELETE FROM taught_text WHERE text = ?');
  for (const entry of same) drop.run(entry.text);
  return same.length;
}
