import type { Paths } from '../config.ts';
import { openStore } from '../store/openStore.ts';
import { undoBatch } from '../store/undoBatch.ts';
import { printJson, Refusal } from './refusal.ts';

/** Takes an intake back whole. */
export async function undo(paths: Paths, batch: string, options: { json: boolean }): Promise<void> {
  const store = await openStore(paths.ownStore, { mustExist: true });
  try {
    const result = undoBatch(store, batch, new Date().toISOString());
    if ('refused' in result) throw new Refusal(result.refused);
    if (options.json) printJson(result);
    else process.stdout.write(`Batch ${result.batch} taken back: ${result.removed} records removed.\n`);
  } finally {
    await store.close();
  }
}
