import { isMainThread } from 'node:worker_threads';
import { isBusy, withoutWaiting, type Store } from './openStore.ts';

/** How long a worker rests before it asks again whether the store is free, ms. */
const restMs = 100;
const rest = new Int32Array(new SharedArrayBuffer(4));

/**
 * Writes what was worked out. A worker waits for a connection that writes, such as an intake, however long that takes: what
 * it found holds until that one commits, and would only be worked out again. It rests in short stretches, so that it can be
 * ended meanwhile. The main thread does not wait, since the intake may run on it.
 * @returns whether it was written
 */
export function patientWrite(store: Store, write: () => void): boolean {
  for (;;)
    try {
      withoutWaiting(store, write);
      return true;
    } catch (error) {
      if (!isBusy(error)) throw error;
      // a transaction that has read an earlier state never gets to write
      if (isMainThread || (error as { code?: unknown }).code !== 'SQLITE_BUSY') return false;
      Atomics.wait(rest, 0, 0, restMs);
    }
}
