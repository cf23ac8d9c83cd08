import type { UnknownText } from '../../models/schema/workTextEndpoints.ts';
import type { Store } from './openStore.ts';

/** Distinct work texts of the service rows with how many rows have each, most first. */
export function* countedTexts(store: Store): Generator<{ text: string; count: number }> {
  yield* store.sqlite
    .prepare('SELECT work AS text, count(*) AS count FROM service GROUP BY work ORDER BY count DESC, work')
    .iterate() as IterableIterator<{ text: string; count: number }>;
}

/** A few service rows that have one of these texts, newest first. */
export function rowsWithText(store: Store, texts: readonly string[], limit: number): UnknownText['examples'] {
  const rows = store.sqlite
    .prepare(
      `SELECT s.id, s.unit_number AS unitNumber, s.serviced_on AS "on", s.line, f.name, f.sheet
       FROM service s JOIN intake_file f ON f.id = s.file_id
       WHERE s.work IN (SELECT value FROM json_each(?)) ORDER BY s.serviced_on DESC, s.id DESC LIMIT ?`,
    )
    .all(JSON.stringify(texts), limit) as {
    id: number;
    unitNumber: string;
    on: string;
    line: number;
    name: string;
    sheet: string | null;
  }[];
  return rows.map(({ name, sheet, ...row }) => ({
    ...row,
    file: sheet === null ? name : `${name}#${sheet}`,
  }));
}

/** Units whose service rows have one of these texts. */
export function unitsWithText(store: Store, texts: readonly string[]): Set<string> {
  const units = store.sqlite
    .prepare('SELECT DISTINCT unit_number FROM service WHERE work IN (SELECT value FROM json_each(?))')
    .pluck()
    .all(JSON.stringify(texts)) as string[];
  return new Set(units);
}
