import { useEffect, useState } from 'preact/hooks';

const changed = 'sumpwise-former';
/** Moments of the answers on the page that newer records are still worked through for, one for each read. */
const moments = new Map<symbol, string>();

function tell(): void {
  window.dispatchEvent(new Event(changed));
}

/** Tells that a part of the page shows an answer of earlier records, as long as it is not taken back by what is returned. */
export function noteFormer(madeAt: string): () => void {
  const part = Symbol(madeAt);
  moments.set(part, madeAt);
  tell();
  return () => {
    moments.delete(part);
    tell();
  };
}

const oldest = (): string | null => [...moments.values()].sort().at(0) ?? null;

/** When the oldest answer on the page was made whose successor is in work, ISO; null: all are of the records as they are. */
export function useFormer(): string | null {
  const [known, setKnown] = useState(oldest);
  useEffect(() => {
    const look = (): void => setKnown(oldest());
    look();
    window.addEventListener(changed, look);
    return () => window.removeEventListener(changed, look);
  }, []);
  return known;
}
