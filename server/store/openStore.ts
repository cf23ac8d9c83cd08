import { existsSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { Kysely, Migrator, SqliteDialect, sql, type Migration } from 'kysely';
import type { Database } from './database.ts';
import { migrateWhole } from './wholeMigration.ts';
import { intakeTables } from './migrations/0001_intake.ts';
import { fleetTables } from './migrations/0002_fleet.ts';
import { historyTables } from './migrations/0003_history.ts';
import { keptResultTables } from './migrations/0004_kept_results.ts';
import { approvalTables } from './migrations/0005_interval_approvals.ts';
import { policyTables } from './migrations/0009_interval_policies.ts';
import { fitVersionTables } from './migrations/0010_fit_versions.ts';
import { correctionTables } from './migrations/0011_corrections.ts';
import { visitTables } from './migrations/0006_visits.ts';
import { columnMapTables } from './migrations/0007_column_maps.ts';
import { photoTables } from './migrations/0008_photos.ts';
import { shopRecordTables } from './migrations/0012_shop_records.ts';
import { keptResultAge } from './migrations/0013_kept_result_age.ts';

/** An open store: typed queries through `db`, bulk work through prepared statements of `sqlite`. */
export interface Store {
  readonly file: string;
  readonly db: Kysely<Database>;
  readonly sqlite: BetterSqlite.Database;
  close(): Promise<void>;
}

/** How long a writer waits for another one, ms. */
const busyMs = 10_000;

/** A store that cannot be opened; the message says what to do. */
export class StoreError extends Error {}

/** Whether an error says that another connection writes. */
export const isBusy = (error: unknown): boolean =>
  String((error as { code?: unknown } | null)?.code).startsWith('SQLITE_BUSY');

/** Does something without waiting for another connection that writes. */
export function withoutWaiting<T>({ sqlite }: Store, work: () => T): T {
  sqlite.pragma('busy_timeout = 0');
  try {
    return work();
  } finally {
    sqlite.pragma(`busy_timeout = ${busyMs}`);
  }
}

/** Whether the store can be written right now: no other connection does. */
export function canWrite(store: Store): boolean {
  if (store.sqlite.inTransaction) return false;
  try {
    withoutWaiting(store, () => store.sqlite.exec('BEGIN IMMEDIATE; ROLLBACK'));
    return true;
  } catch (error) {
    if (isBusy(error)) return false;
    throw error;
  }
}

const fromText = (text: string): Migration => ({
  up: async (db) => {
    for (const statement of text.split(';\n'))
      if (statement.trim() !== '') await sql.raw(statement).execute(db);
  },
});

const migrations: Record<string, Migration> = {
  '0001_intake': fromText(intakeTables),
  '0002_fleet': fromText(fleetTables),
  '0003_history': fromText(historyTables),
  '0004_kept_results': fromText(keptResultTables),
  '0005_interval_approvals': fromText(approvalTables),
  '0006_visits': fromText(visitTables),
  '0007_column_maps': fromText(columnMapTables),
  '0008_photos': fromText(photoTables),
  '0009_interval_policies': fromText(policyTables),
  '0010_fit_versions': fromText(fitVersionTables),
  '0011_corrections': fromText(correctionTables),
  '0012_shop_records': fromText(shopRecordTables),
  '0013_kept_result_age': fromText(keptResultAge),
};

/**
 * Opens a SQLite store, creating it unless `mustExist`, and brings it to the newest layout.
 * Every commit is on disk before it is confirmed (write-ahead log, full synchronisation).
 * @throws StoreError when the file is missing, is no store, or is newer than this program
 */
export async function openStore(file: string, options: { mustExist?: boolean } = {}): Promise<Store> {
  if (file.startsWith('postgres:') || file.startsWith('postgresql:'))
    throw new StoreError('store: a PostgreSQL address is not supported yet; give the path of a SQLite file');
  if (options.mustExist === true && !existsSync(file))
    throw new StoreError(
      `store: ${file} does not exist; bring records in first with "sumpwise intake FILE…"`,
    );
  mkdirSync(dirname(file), { recursive: true });
  let sqlite: BetterSqlite.Database;
  try {
    sqlite = new BetterSqlite(file, { timeout: busyMs });
    sqlite.pragma('journal_mode = WAL');
    sqlite.pragma('synchronous = FULL');
    sqlite.pragma('foreign_keys = ON');
    sqlite.pragma('cache_size = -65536');
  } catch (error) {
    throw new StoreError(`store: ${file} can't be opened as a store: ${(error as Error).message}`);
  }
  const db = new Kysely<Database>({ dialect: new SqliteDialect({ database: sqlite }) });
  const migrator = new Migrator({
    db,
    provider: { getMigrations: async () => migrations },
    // tables of one part may come before those of another
    allowUnorderedMigrations: true,
  });
  const error = await migrateWhole(sqlite, Object.keys(migrations), () => migrator.migrateToLatest());
  if (error !== undefined) {
    await db.destroy();
    throw new StoreError(
      `store: ${file} can't be brought to this program's layout: ${(error as Error).message}`,
    );
  }
  const close = async (): Promise<void> => {
    await db.destroy();
    // the query builder closes only what it was used on
    if (sqlite.open) sqlite.close();
  };
  return { file, db, sqlite, close };
}
