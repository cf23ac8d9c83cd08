/** Changes that are under way have become more or fewer. */
export const pendingEvent = 'sumpwise-pending';

/** What tells itself how far it is, or changes nothing. */
const ownWords = /^\/api\/(intake$|intake\/jobs\/|plan\/cost-of-move$)/;

let pending = 0;

/** How many changes are under way. */
export const pendingWrites = (): number => pending;

/**
 * Notes that a change was sent.
 * @returns what notes that it was answered
 */
export function notePending(path: string): () => void {
  if (ownWords.test(path)) return () => undefined;
  const move = (by: number): void => {
    pending += by;
    window.dispatchEvent(new Event(pendingEvent));
  };
  move(1);
  return () => move(-1);
}
