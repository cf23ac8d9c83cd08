/**
 * Writes of this program take turns: an intake holds the store over many steps, and a write on this thread could neither
 * get in between nor let it go on.
 */
export class WriteTurns {
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
    const tired = new Promise<'tired'>((resolve) => (timer = setTimeout(() => resolve('tired'), patienceMs)));
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
