import { useEffect, useState } from 'preact/hooks';
import { keptEntries, keptEvent, type KeptEntry } from './keptEntry.ts';
import { isUnderWay } from './sendEntry.ts';

/** Entries that wait on this device, but for one that is just being sent; drawn anew when they change, on any page. */
export function useKept(under = '/'): readonly KeptEntry[] {
  const [, setTurn] = useState(0);
  useEffect(() => {
    const look = (): void => setTurn((turn) => turn + 1);
    window.addEventListener(keptEvent, look);
    // another page wrote
    window.addEventListener('storage', look);
    return () => {
      window.removeEventListener(keptEvent, look);
      window.removeEventListener('storage', look);
    };
  }, []);
  return keptEntries(under).filter(({ key }) => !isUnderWay(key));
}

const shownUnder = new Set<string>();

/** Entries whose path begins so are shown where they were made, while this is drawn. */
export function useShown(under: string): void {
  useEffect(() => {
    shownUnder.add(under);
    window.dispatchEvent(new Event(keptEvent));
    return () => {
      shownUnder.delete(under);
      window.dispatchEvent(new Event(keptEvent));
    };
  }, [under]);
}

/** Whether an entry is shown where it was made. */
export const isShown = ({ path }: KeptEntry): boolean =>
  [...shownUnder].some((under) => path.startsWith(under));
