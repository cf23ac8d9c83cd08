import type { Store } from './openStore.ts';

/** Whether a unit of that number is known. */
export function unitExists(store: Store, unitNumber: string): boolean {
  return (
    store.sqlite
      .prepare('SELECT 1 FROM units WHERE unit_number = ? COLLATE NOCASE LIMIT 1')
      .get(unitNumber) !== undefined
  );
}
