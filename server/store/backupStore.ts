import { existsSync, renameSync, rmSync } from 'node:fs';
import BetterSqlite from 'better-sqlite3';
import { openStore, StoreError } from './openStore.ts';
import { verifyStore } from './verify.ts';

const sideFiles = ['-wal', '-shm'];

/**
 * Copies a whole store while it is in use, in one step: the copy appears when it is complete and sound.
 * @returns its size in bytes
 * @throws StoreError when the store can't be read or the copy can't be written
 */
export async function backupStore(storeFile: string, to: string): Promise<number> {
  const store = await openStore(storeFile, { mustExist: true });
  const part = `${to}.part`;
  try {
    await store.sqlite.backup(part);
    const copy = new BetterSqlite(part);
    // one file that stands alone, without a log beside it
    copy.pragma('journal_mode = DELETE');
    const [check] = copy.pragma('integrity_check') as { integrity_check: string }[];
    const bytes =
      Number(copy.pragma('page_count', { simple: true })) *
      Number(copy.pragma('page_size', { simple: true }));
    copy.close();
    if (check.integrity_check !== 'ok')
      throw new StoreError(`backup: the copy is not sound: ${check.integrity_check}`);
    renameSync(part, to);
    return bytes;
  } catch (error) {
    rmSync(part, { force: true });
    if (error instanceof StoreError) throw error;
    throw new StoreError(`backup: ${to} can't be written: ${(error as Error).message}`);
  } finally {
    await store.close();
  }
}

/** Says that the store is in use by another process, which holds its log open. */
function isInUse(file: string): boolean {
  if (!existsSync(file)) return false;
  const sqlite = new BetterSqlite(file, { timeout: 200 });
  try {
    // leaving the write-ahead log needs every other connection to be gone
    sqlite.pragma('journal_mode = DELETE');
    return sqlite.pragma('journal_mode', { simple: true }) !== 'delete';
  } catch {
    return true;
  } finally {
    sqlite.close();
  }
}

/**
 * Puts a backup in the place of a store. The backup is verified first; the store that was there is kept beside it.
 * @param suffix of the kept store's name, e.g. `before-restore-2026-03-31T08-00-00`
 * @returns where the replaced store is kept, or null when there was none
 * @throws StoreError when the backup is not sound or the store is in use
 */
export async function restoreStore(from: string, storeFile: string, suffix: string): Promise<string | null> {
  if (!existsSync(from)) throw new StoreError(`restore: ${from} does not exist`);
  const part = `${storeFile}.part`;
  for (const end of ['', ...sideFiles]) rmSync(part + end, { force: true });
  try {
    const source = new BetterSqlite(from, { readonly: true });
    try {
      await source.backup(part);
    } finally {
      source.close();
    }
    // opened the usual way: brought to this layout, then every row accounted for
    const copy = await openStore(part, { mustExist: true });
    try {
      const { problems } = verifyStore(copy);
      if (problems.length > 0) throw new StoreError(`restore: ${from} is not sound: ${problems[0]}`);
      copy.sqlite.pragma('journal_mode = DELETE');
    } finally {
      await copy.close();
    }
    if (isInUse(storeFile))
      throw new StoreError(`restore: ${storeFile} is in use; stop "sumpwise serve" and other verbs first`);
    const kept = existsSync(storeFile) ? `${storeFile}.${suffix}` : null;
    if (kept !== null) {
      for (const end of sideFiles) rmSync(storeFile + end, { force: true });
      renameSync(storeFile, kept);
    }
    renameSync(part, storeFile);
    return kept;
  } catch (error) {
    for (const end of ['', ...sideFiles]) rmSync(part + end, { force: true });
    if (error instanceof StoreError) throw error;
    throw new StoreError(`restore: ${from} can't be read as a store: ${(error as Error).message}`);
  }
}
