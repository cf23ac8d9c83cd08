import { useEffect, useState } from 'preact/hooks';

/** Whether the server answers, and if not, from when the answers are that this device kept. */
export type Connection = 'here' | 'gone' | { readonly keptAt: string };

const changed = 'sumpwise-connection';
/** The server answers again after it did not. */
export const backEvent = 'sumpwise-back';

let connection: Connection = 'here';

const same = (a: Connection, b: Connection): boolean =>
  typeof a === 'string' || typeof b === 'string' ? a === b : a.keptAt === b.keptAt;

/** What the newest answer, or its absence, says of the connection. */
export function noteConnection(next: Connection): void {
  if (same(connection, next)) return;
  const back = next === 'here';
  connection = next;
  window.dispatchEvent(new Event(changed));
  if (back) window.dispatchEvent(new Event(backEvent));
}

/** The connection as it is known now; the page is drawn anew when that changes. */
export function useConnection(): Connection {
  const [known, setKnown] = useState(connection);
  useEffect(() => {
    const look = (): void => setKnown(connection);
    look();
    window.addEventListener(changed, look);
    return () => window.removeEventListener(changed, look);
  }, []);
  return known;
}
