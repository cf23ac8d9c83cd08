import { recordKinds } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';

function count(store: Store, text: string): number {
  return (store.sqlite.prepare(text).get() as { n: number }).n;
}

/** How much there is: unit numbers and all records. */
export function countRecords(store: Store): { units: number; records: number } {
  return {
    units: count(store, 'SELECT count(DISTINCT unit_number) AS n FROM units'),
    records: recordKinds.reduce((sum, kind) => sum + count(store, `SELECT count(*) AS n FROM ${kind}`), 0),
  };
}

/** Rows that wait for a decision. */
export function countHeldRows(store: Store): number {
  return count(store, `SELECT count(*) AS n FROM held_row WHERE state = 'held'`);
}
