import { taughtKey, type TaughtWorks } from '../../models/intake/workText.ts';
import { workKinds, type WorkKind } from '../../models/schema/service.ts';
import type { Store } from './openStore.ts';

/** Work texts that people have taught, by the key under which the reader looks them up. */
export function loadTaught(store: Store): TaughtWorks {
  const rows = store.sqlite.prepare('SELECT text, reading FROM taught_text').all() as {
    text: string;
    reading: string;
  }[];
  return new Map(
    rows.map((row) => [
      taughtKey(row.text),
      (JSON.parse(row.reading) as string[]).filter((kind): kind is WorkKind =>
        (workKinds as readonly string[]).includes(kind),
      ),
    ]),
  );
}
