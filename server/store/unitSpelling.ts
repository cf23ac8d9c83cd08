import type { Store } from './openStore.ts';

/** A unit's number as the units file spells it, or null when there is no such unit. */
export function spellingOfUnit(store: Store, unitNumber: string): string | null {
  const row = store.sqlite
    .prepare(
      'SELECT unit_number AS spelling FROM units WHERE unit_number = ? COLLATE NOCASE ORDER BY id LIMIT 1',
    )
    .get(unitNumber) as { spelling: string } | undefined;
  return row?.spelling ?? null;
}
