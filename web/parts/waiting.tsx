import { useEffect, useState } from 'preact/hooks';
import { counted } from '../format/words.ts';
import { backEvent, useConnection } from './connection.ts';
import { useFleetState } from './fleetState.tsx';
import type { KeptEntry } from './keptEntry.ts';
import { Notice } from './notice.tsx';
import { sendWaiting, sentEvent } from './sendEntry.ts';
import { isShown, useKept } from './useKept.ts';

/** How often what waits is sent again while the page is open, ms. */
const againMs = 20_000;

/** The page on which an entry was made, and shows while it waits. */
function pageOf({ path, body }: KeptEntry): string {
  const [, unit] = /^\/api\/units\/([^/]+)\/findings$/.exec(path) ?? [];
  if (unit !== undefined) return `/desk?unit=${unit}`;
  const [, visit] = /^\/api\/visits\/([^/]+)\/card$/.exec(path) ?? [];
  if (visit !== undefined) return `/card/${visit}`;
  const { unitNumber = '', jobs = [] } = body as { unitNumber?: string; jobs?: readonly string[] };
  return `/card/new?unit=${encodeURIComponent(unitNumber)}&jobs=${jobs.join(',')}`;
}

/** Sends what waits when a page opens, when the server is back, and now and then while something waits. */
function useSending(isWaiting: boolean): void {
  const { data } = useFleetState();
  const store = useConnection() === 'here' ? data?.store : undefined;
  useEffect(() => {
    if (store === undefined) return undefined;
    const send = (): void => void sendWaiting();
    send();
    window.addEventListener(backEvent, send);
    window.addEventListener('online', send);
    return () => {
      window.removeEventListener(backEvent, send);
      window.removeEventListener('online', send);
    };
  }, [store]);
  useEffect(() => {
    if (store === undefined || !isWaiting) return undefined;
    const timer = setInterval(() => void sendWaiting(), againMs);
    return () => clearInterval(timer);
  }, [store, isWaiting]);
}

/** Entries that wait on this device, with what became of them, on every page. */
export function Waiting() {
  const { again } = useFleetState();
  const [sent, setSent] = useState<readonly string[]>([]);
  const kept = useKept();
  useEffect(() => {
    const told = (event: Event): void => {
      const { title } = (event as CustomEvent<KeptEntry>).detail;
      setSent((earlier) => [...earlier, title]);
      again();
    };
    window.addEventListener(sentEvent, told);
    return () => window.removeEventListener(sentEvent, told);
  }, [again]);
  useSending(kept.some(({ refused }) => refused === undefined));
  const waiting = kept.filter((entry) => !isShown(entry));
  return (
    <>
      {sent.length > 0 && <Notice kind="done" words={`${sent.join('; ')}: sent.`} />}
      {waiting.length > 0 && (
        <div class="notice notice-hint" role="status">
          <p>
            <strong>Next.</strong> {counted(waiting.length, 'entry waits', 'entries wait')} on this device:{' '}
            {waiting.map((entry, place) => (
              <>
                {place > 0 && '; '}
                <a href={pageOf(entry)}>{entry.title}</a>
                {entry.refused !== undefined && ` (not taken: ${entry.refused.replace(/\.$/, '')})`}
              </>
            ))}
            .
            {waiting.some(({ refused }) => refused !== undefined) &&
              ' What was not taken is entered again or given up on its page.'}
          </p>
          <button type="button" onClick={() => void sendWaiting(true)}>
            Send now
          </button>
        </div>
      )}
    </>
  );
}
