import { useEffect, useRef, useState } from 'preact/hooks';
import { RequestError } from '../api.ts';
import { moment } from '../format/dates.ts';
import { dropEntry, keptEntries, sendEntry, sentEvent, type KeptEntry } from './keptEntry.ts';
import { Notice } from './notice.tsx';

/** Entries that did not reach the server: sent when it answers again while the page is open, else when asked. */
export function WaitingEntries({ under, onSent }: { under: string; onSent: (title: string) => void }) {
  const [, setTurn] = useState(0);
  const [failed, setFailed] = useState<string | null>(null);
  const [sending, setSending] = useState<string | null>(null);
  const waiting = keptEntries(under);
  const again = (): void => setTurn((turn) => turn + 1);
  const handler = useRef(onSent);
  handler.current = onSent;
  useEffect(() => {
    const told = (event: Event): void => {
      const { title, path } = (event as CustomEvent<KeptEntry>).detail;
      if (path.startsWith(under)) handler.current(title);
      again();
    };
    window.addEventListener(sentEvent, told);
    return () => window.removeEventListener(sentEvent, told);
  }, [under]);
  if (waiting.length === 0 && failed === null) return null;
  return (
    <section class="desk-waiting" aria-label="Entries that wait on this device">
      {failed !== null && <Notice kind="fault" words={failed} />}
      {waiting.map((entry) => (
        <div class="notice notice-hint" role="status" key={entry.key}>
          <p>
            <strong>Not sent yet.</strong> {entry.title}, entered {moment(entry.at)}. It is kept on this
            device.
            {entry.refused !== undefined && ` It was sent and not taken: ${entry.refused}`}
          </p>
          <button
            type="button"
            disabled={sending !== null}
            onClick={() => {
              setSending(entry.key);
              setFailed(null);
              sendEntry(entry)
                .then(() => onSent(entry.title))
                .catch((reason: unknown) =>
                  setFailed(reason instanceof RequestError ? reason.message : String(reason)),
                )
                .finally(() => {
                  setSending(null);
                  again();
                });
            }}
          >
            Send it now
          </button>
          <button
            type="button"
            onClick={() => {
              dropEntry(entry.key);
              again();
            }}
          >
            Give it up
          </button>
        </div>
      ))}
    </section>
  );
}
