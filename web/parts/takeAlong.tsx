import { useEffect, useState } from 'preact/hooks';
import { read } from '../api.ts';
import { offlineNames } from '../offline/names.ts';
import { daysBetween } from '../format/dates.ts';
import { counted } from '../format/words.ts';
import { Notice } from './notice.tsx';

const daysAhead = 7;
/** Half of what a device keeps, at three answers a visit. */
const mostVisits = Math.floor(offlineNames.mostKept / 2 / 3);

/** What a visit's unit needs without a connection. */
const readsOf = (unitNumber: string, visitId: number): readonly string[] => [
  `/api/visits/${visitId}/card`,
  `/api/units/${encodeURIComponent(unitNumber)}`,
  `/api/units/${encodeURIComponent(unitNumber)}/desk`,
];

const keptCount = async (): Promise<number> =>
  (await (await caches.open(offlineNames.readsCache)).keys()).length;

/** Fetches cards, units and desk facts of the next days' visits, so that they open where there is no connection. */
export function TakeAlong({ asOf }: { asOf: string }) {
  const worker = 'serviceWorker' in navigator && navigator.serviceWorker.controller !== null;
  const [kept, setKept] = useState<number | null>(null);
  const [progress, setProgress] = useState<string | null>(null);
  const [outcome, setOutcome] = useState<{ kind: 'done' | 'fault' | 'hint'; words: string } | null>(null);
  const count = (): void => void keptCount().then(setKept, () => setKept(null));
  useEffect(() => {
    if (worker) count();
  }, [worker]);
  if (!worker)
    return (
      <p class="muted">
        This browser keeps nothing for work without a connection here: that needs this computer’s own address
        or one with https, and a window that is not private.
      </p>
    );
  const take = async (): Promise<void> => {
    setOutcome(null);
    setProgress('Reading the visits …');
    try {
      const { visits } = await read<'visits'>('/api/visits');
      const near = visits.filter(
        ({ state, lastDay, on }) =>
          state !== 'done' && daysBetween(asOf, lastDay) >= 0 && daysBetween(asOf, on) <= daysAhead,
      );
      const taken = near.slice(0, mostVisits);
      const paths = taken.flatMap(({ unitNumber, id }) => readsOf(unitNumber, id));
      for (const [index, path] of paths.entries()) {
        setProgress(`${index} of ${paths.length} …`);
        await read<'visitCard'>(path);
      }
      setOutcome(
        near.length === 0
          ? {
              kind: 'hint',
              words: `No visit is booked for the next ${daysAhead} days. Publish a shop plan first.`,
            }
          : {
              kind: 'done',
              words: `${counted(taken.length, 'visit')} can be worked on without a connection.${near.length > taken.length ? ` ${near.length - taken.length} more are not taken: this device has room for ${mostVisits}.` : ''}`,
            },
      );
    } catch (reason) {
      setOutcome({ kind: 'fault', words: reason instanceof Error ? reason.message : String(reason) });
    }
    setProgress(null);
    count();
  };
  const forget = (): void =>
    void caches.delete(offlineNames.readsCache).then(() => {
      setOutcome({ kind: 'done', words: 'What was kept on this device is gone. Entries that wait stay.' });
      count();
    });
  return (
    <section aria-labelledby="along-title">
      <h2 id="along-title">Without a connection</h2>
      <p>
        Pages and units you opened stay readable on this device, and what you enter at the desk or on a card
        is kept until the server answers.
        {kept !== null && ` ${counted(kept, 'answer is', 'answers are')} kept now.`}
      </p>
      <div class="find-actions">
        <button type="button" disabled={progress !== null} onClick={() => void take()}>
          {progress ?? `Take the visits of the next ${daysAhead} days along`}
        </button>
        <button type="button" onClick={forget}>
          Forget what this device keeps
        </button>
      </div>
      {outcome !== null && <Notice kind={outcome.kind} words={outcome.words} />}
    </section>
  );
}
