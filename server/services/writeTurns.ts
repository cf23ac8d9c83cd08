import { setTimeout as wait } from 'node:timers/promises';
import { canWrite, type Store } from '../store/openStore.ts';

/** How often another program that writes is asked whether it is done, ms. */
const askEveryMs = 100;

/**
 * Waits until no other connection writes the store; reads go on meanwhile.
 * @param until moment at which it is given up, ms of the clock
 * @param isGone whether nobody waits for it any more
 * @returns whether the store can be written
 */
export async function untilWritable(
  store: Store,
  until: number,
  isGone: () => boolean = () => false,
): Promise<boolean> {
  while (!canWrite(store)) {
    if (Date.now() > until || isGone()) return false;
    await wait(askEveryMs);
  }
  return true;
}

/**
 * Writes of this program take turns: an intake holds the store over many steps, and a write on this thread could neither
 * get in between nor let it go on.
 */
export class WriteTurns {
  /** how long a request waits for those before it, ms; an intake of a million rows takes less */
  patienceMs = 120_000;
  private last: Promise<void> = Promise.resolve();

  /**
   * Waits until everyone before is done.
   * @param patienceMs how long to wait at the most
   * @returns what ends the turn; null when the patience ran out first
   */
  async take(patienceMs: number): Promise<(() => void) | null> {
    const before = this.last;
    let end: () => void = () => undefined;
    const own = new Promise<void>((resolve) => (end = resolve));
    this.last = before.then(() => own);
    let timer: NodeJS.Timeout | undefined;
    // who still waits when the program ends does not keep it from ending
    const tired = new Promise<'tired'>((resolve) => {
      timer = setTimeout(() => resolve('tired'), patienceMs).unref();
    });
    const first = await Promise.race([before, tired]);
    clearTimeout(timer);
    if (first !== 'tired') return end;
    end();
    return null;
  }

  /** Does something in a turn of its own, however long the wait. */
  async during<T>(work: () => Promise<T>): Promise<T> {
    const end = (await this.take(2 ** 31 - 1))!;
    try {
      return await work();
    } finally {
      end();
    }
  }
}
