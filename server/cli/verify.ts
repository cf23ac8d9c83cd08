import type { Paths } from '../config.ts';
import { openStore } from '../store/openStore.ts';
import { verifyStore } from '../store/verify.ts';
import { printJson, Refusal } from './refusal.ts';

/** Checks the store; refused (exit 1) when something is wrong. */
export async function verify(paths: Paths, options: { json: boolean }): Promise<void> {
  const store = await openStore(paths.ownStore, { mustExist: true });
  try {
    const result = verifyStore(store);
    if (options.json) printJson(result);
    else {
      process.stdout.write(
        `${result.files} files, ${result.rowsRead} rows read = ${result.accepted} accepted + ${result.duplicates} duplicates + ${result.held} held + ${result.rejected} rejected\n`,
      );
      for (const problem of result.problems) process.stdout.write(`${problem}\n`);
      if (result.ok) process.stdout.write('The store is whole.\n');
    }
    if (!result.ok)
      throw new Refusal(`The store has ${result.problems.length} problems: ${result.problems[0]}`);
  } finally {
    await store.close();
  }
}
