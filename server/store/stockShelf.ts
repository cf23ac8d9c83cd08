import type { Stock } from '../../models/schema/shopResources.ts';
import type { Store } from './openStore.ts';
import { readRecords } from './records.ts';
import { movedSince } from './stockMovements.ts';

/** What is left of a count after what moved since; a shelf holds nothing below 0. */
function leftOf(counted: number | null, moved: number): number | null {
  return counted === null ? null : Math.max(0, Number((counted + moved).toFixed(3)));
}

/**
 * What the shelves hold as known on a day: the newest count of each item, and what moved since.
 * @param site only this one; null = all
 */
export function shelves(store: Store, site: string | null, asOf: string): Stock[] {
  const batches = new Map(
    store.sqlite.prepare('SELECT id, batch_id FROM intake_file').raw().all() as [number, number][],
  );
  const moved = movedSince(store, asOf);
  const latest = new Map<string, Stock>();
  for (const { record, fileId } of readRecords<Stock>(
    store,
    'stock',
    'WHERE (? IS NULL OR t.site = ? COLLATE NOCASE) AND (t.known_on IS NULL OR t.known_on <= ?) ORDER BY t.id',
    [site, site, asOf],
  ))
    latest.set(`${record.item.trim()}|${(record.site ?? '').trim()}`.toLowerCase(), {
      ...record,
      onHand: leftOf(record.onHand, moved({ ...record, batch: batches.get(fileId) ?? 0 })),
    });
  return [...latest.values()];
}

/** What the shelf of one site holds; nothing where the site is not known. */
export function stockOfSite(store: Store, site: string | null, asOf: string): Stock[] {
  return site === null ? [] : shelves(store, site, asOf);
}
