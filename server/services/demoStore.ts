import { randomUUID } from 'node:crypto';
import type { Paths } from '../config.ts';
import { demoFiles, putInPlace, removeStoreFiles } from '../files/demoFiles.ts';
import { openStore, type Store } from '../store/openStore.ts';
import { setStoreNote, storeNote } from '../store/settings.ts';
import { takeIn } from './takeIn.ts';

/** The last day of the demo fleet's records; its clock stands still there. */
export const demoAsOf = '2026-10-31';

/**
 * Opens the demo store; makes it through the ordinary intake when it is missing or its files changed.
 * @param say tells what is being done
 */
export async function openDemo(paths: Paths, say: (line: string) => void): Promise<Store> {
  const { files, hash } = demoFiles(paths.demoFiles);
  const present = await openStore(paths.demoStore);
  if ((await storeNote(present, 'demo_files')) === hash) return present;
  await present.close();
  say('Loading the demo fleet …');
  const fresh = `${paths.demoStore}.${randomUUID()}`;
  const store = await openStore(fresh);
  try {
    const report = await takeIn(fresh, files, { dryRun: false, by: 'demo', today: demoAsOf });
    if (!report.committed)
      throw new Error(
        `the demo files were not taken in: ${JSON.stringify(report.refused ?? report.questions)}`,
      );
    await setStoreNote(store, 'as_of', demoAsOf);
    await setStoreNote(store, 'demo_files', hash);
    store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
  } catch (error) {
    await store.close();
    removeStoreFiles(fresh);
    throw error;
  }
  await store.close();
  putInPlace(fresh, paths.demoStore);
  return openStore(paths.demoStore, { mustExist: true });
}
