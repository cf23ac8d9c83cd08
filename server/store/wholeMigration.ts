import type BetterSqlite from 'better-sqlite3';

function areApplied(sqlite: BetterSqlite.Database, names: readonly string[]): boolean {
  const isThere = sqlite.prepare(`SELECT 1 FROM sqlite_master WHERE name = 'kysely_migration'`).get();
  if (isThere === undefined) return false;
  const applied = sqlite.prepare('SELECT name FROM kysely_migration').pluck().all() as string[];
  return applied.length === names.length && names.every((name) => applied.includes(name));
}

/**
 * Brings a store to the newest layout in one transaction, so that a killed process leaves the old layout or the new
 * one, and two processes that open it at once do not do the work twice. Nothing is locked when there is nothing to do.
 * @param names every migration of this program
 * @returns what went wrong, or undefined
 */
export async function migrateWhole(
  sqlite: BetterSqlite.Database,
  names: readonly string[],
  migrate: () => Promise<{ error?: unknown }>,
): Promise<unknown> {
  try {
    if (areApplied(sqlite, names)) return undefined;
    sqlite.exec('BEGIN IMMEDIATE');
    const { error } = areApplied(sqlite, names) ? {} : await migrate();
    sqlite.exec(error === undefined ? 'COMMIT' : 'ROLLBACK');
    return error;
  } catch (error) {
    if (sqlite.inTransaction) sqlite.exec('ROLLBACK');
    return error;
  }
}
