import type { Stock } from '../../models/schema/shopResources.ts';
import type { Store } from './openStore.ts';
import { readRecords } from './records.ts';

/** What the shelf of a site holds as known on a day: the newest record of each item. */
export function stockOfSite(store: Store, site: string | null, asOf: string): Stock[] {
  const latest = new Map<string, Stock>();
  if (site === null) return [];
  for (const { record } of readRecords<Stock>(
    store,
    'stock',
    'WHERE t.site = ? COLLATE NOCASE AND (t.known_on IS NULL OR t.known_on <= ?) ORDER BY t.id',
    [site, asOf],
  ))
    latest.set(record.item.trim().toLowerCase(), record);
  return [...latest.values()];
}
