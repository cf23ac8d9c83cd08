import BetterSqlite from 'better-sqlite3';

/** Newer Node versions abort when a handle is freed while garbage is collected, a closed one too: all are held. */
const held: BetterSqlite.Database[] = [];

/** Opens a SQLite file; the only place that does. */
export function openSqliteFile(file: string, options: BetterSqlite.Options = {}): BetterSqlite.Database {
  const sqlite = new BetterSqlite(file, options);
  held.push(sqlite);
  return sqlite;
}
