import { existsSync } from 'node:fs';
import { layoutSignature } from '../../models/intake/layoutSignature.ts';
import type { KeptColumnMap } from '../../models/schema/columnMapEndpoints.ts';
import { openStore, type Store } from './openStore.ts';

/** The name of a map that is kept for another layout. */
export class NameTaken extends Error {}

interface Row {
  readonly name: string;
  readonly layout: string;
  readonly kind: string;
  readonly columns: string;
  readonly madeAt: string;
  readonly madeBy: string;
}

/** Kept column maps by name. */
export function listColumnMaps(store: Store): KeptColumnMap[] {
  const rows = store.sqlite
    .prepare(
      'SELECT name, layout, kind, columns, made_at AS madeAt, made_by AS madeBy FROM column_map ORDER BY name',
    )
    .all() as Row[];
  return rows.map(({ layout, columns, ...row }) => ({
    ...row,
    headers: JSON.parse(layout) as string[],
    columns: JSON.parse(columns) as KeptColumnMap['columns'],
  }));
}

/** Kept column maps by the layout they are for; none when there is no store yet, and none is made. */
export async function columnMapsByLayout(storeFile: string): Promise<ReadonlyMap<string, KeptColumnMap>> {
  if (!existsSync(storeFile)) return new Map();
  const store = await openStore(storeFile);
  try {
    return new Map(listColumnMaps(store).map((map) => [layoutSignature(map.headers), map]));
  } finally {
    await store.close();
  }
}

function isTaken(store: Store, name: string, layout: string): boolean {
  const held = store.sqlite.prepare('SELECT layout FROM column_map WHERE name = ?').pluck().get(name);
  return held !== undefined && held !== layout;
}

/**
 * Keeps a column map for its layout, in place of the one kept for that layout before.
 * @throws NameTaken when another layout's map has the name
 */
export function keepColumnMap(store: Store, map: KeptColumnMap): void {
  const layout = layoutSignature(map.headers);
  if (isTaken(store, map.name, layout))
    throw new NameTaken(
      `The name "${map.name}" belongs to the column map of another layout; choose another name.`,
    );
  store.sqlite.prepare('DELETE FROM column_map WHERE layout = ?').run(layout);
  store.sqlite
    .prepare(
      'INSERT INTO column_map (name, layout, kind, columns, made_at, made_by) VALUES (?, ?, ?, ?, ?, ?)',
    )
    .run(map.name, layout, map.kind, JSON.stringify(map.columns), map.madeAt, map.madeBy);
}

/** Gives a map another name; says so when there is no such map or the name is taken. */
export function renameColumnMap(store: Store, name: string, to: string): 'done' | 'missing' | 'taken' {
  const layout = store.sqlite.prepare('SELECT layout FROM column_map WHERE name = ?').pluck().get(name);
  if (layout === undefined) return 'missing';
  if (isTaken(store, to, String(layout))) return 'taken';
  store.sqlite.prepare('UPDATE column_map SET name = ? WHERE name = ?').run(to, name);
  return 'done';
}

/** Forgets a map. Returns whether it was there. */
export function dropColumnMap(store: Store, name: string): boolean {
  return store.sqlite.prepare('DELETE FROM column_map WHERE name = ?').run(name).changes > 0;
}
