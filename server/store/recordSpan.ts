import type { RecordSpan } from '../../models/assessment/hindcastOrigins.ts';
import { datedTables } from './flatRecords.ts';
import type { Store } from './openStore.ts';

/** First and last day of the dated records known up to a day, or null when there are none. */
export function recordSpanOf(store: Store, asOf: string): RecordSpan | null {
  const parts = datedTables.map(
    ([table, column]) =>
      `SELECT min(${column}) AS a, max(${column}) AS b FROM ${table} WHERE ${column} <= @asOf AND (known_on IS NULL OR known_on <= @asOf)`,
  );
  const row = store.sqlite
    .prepare(`SELECT min(a) AS a, max(b) AS b FROM (${parts.join(' UNION ALL ')})`)
    .get({ asOf }) as { a: string | null; b: string | null };
  return row.a === null || row.b === null ? null : { firstOn: row.a, lastOn: row.b };
}
