import { recordKinds } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';

/** How much there is: unit rows, all records, rows that wait for a decision. */
export function countRecords(store: Store): { units: number; records: number; heldRows: number } {
  const count = (text: string): number => (store.sqlite.prepare(text).get() as { n: number }).n;
  return {
    units: count('SELECT count(DISTINCT unit_number) AS n FROM units'),
    records: recordKinds.reduce((sum, kind) => sum + count(`SELECT count(*) AS n FROM ${kind}`), 0),
    heldRows: count(`SELECT count(*) AS n FROM held_row WHERE state = 'held'`),
  };
}
