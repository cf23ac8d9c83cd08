import { useEffect, useRef, useState } from 'preact/hooks';
import { RequestError } from '../api.ts';
import { moment } from '../format/dates.ts';
import { dropEntry, type KeptEntry } from './keptEntry.ts';
import { Notice } from './notice.tsx';
import { sendEntry, sentEvent } from './sendEntry.ts';
import { useKept, useShown } from './useKept.ts';

/** Entries that did not reach the server, and wait to be sent by themselves or when asked; and those that it refused. */
export function WaitingEntries({ under, onSent }: { under: string; onSent: (entry: KeptEntry) => void }) {
  const [failed, setFailed] = useState<string | null>(null);
  const [sending, setSending] = useState<string | null>(null);
  const waiting = useKept(under);
  useShown(under);
  const handler = useRef(onSent);
  handler.current = onSent;
  useEffect(() => {
    const told = (event: Event): void => {
      const entry = (event as CustomEvent<KeptEntry>).detail;
      if (entry.path.startsWith(under)) handler.current(entry);
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
            {entry.refused === undefined
              ? ' It is sent by itself as soon as that works.'
              : ` It was sent and not taken: ${entry.refused} Enter it anew as it should be, then give this one up.`}
          </p>
          <button
            type="button"
            disabled={sending !== null}
            onClick={() => {
              setSending(entry.key);
              setFailed(null);
              sendEntry(entry)
                .then(() => onSent(entry))
                .catch((reason: unknown) =>
                  setFailed(reason instanceof RequestError ? reason.message : String(reason)),
                )
                .finally(() => setSending(null));
            }}
          >
            Send it now
          </button>
          <button type="button" onClick={() => dropEntry(entry.key)}>
            Give it up
          </button>
        </div>
      ))}
    </section>
  );
}
