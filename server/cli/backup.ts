import { existsSync } from 'node:fs';
import type { Paths } from '../config.ts';
import { backupStore, restoreStore } from '../store/backupStore.ts';
import { printJson, Refusal } from './refusal.ts';

/** Copies the whole store to a file, while it is in use. */
export async function backup(paths: Paths, file: string, options: { json: boolean }): Promise<void> {
  if (existsSync(file)) throw new Refusal(`backup: ${file} is there already; choose another name`);
  const bytes = await backupStore(paths.ownStore, file);
  if (options.json) printJson({ file, bytes });
  else process.stdout.write(`${paths.ownStore} is copied to ${file} (${bytes} bytes), checked and whole.\n`);
}

/** Puts a backup in the store's place; the store that was there is kept beside it. */
export async function restore(paths: Paths, file: string, options: { json: boolean }): Promise<void> {
  const suffix = `before-restore-${new Date().toISOString().slice(0, 19).replaceAll(':', '-')}`;
  const kept = await restoreStore(file, paths.ownStore, suffix);
  if (options.json) printJson({ store: paths.ownStore, kept });
  else
    process.stdout.write(
      `${paths.ownStore} is now as ${file} has it.${kept === null ? '' : ` What was there before is kept as ${kept}.`}\n`,
    );
}
