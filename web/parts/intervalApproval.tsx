import { useState } from 'preact/hooks';
import type { UnitStory } from '../../models/schema/story.ts';
import { RequestError, write } from '../api.ts';
import { date } from '../format/dates.ts';
import { distance, kmPerMile } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { useFleetState, useSettings } from './fleetState.tsx';
import { Notice } from './notice.tsx';

/** Records a longer interval on evidence, or says what stands against one; what stands can be withdrawn. */
export function IntervalApproval({ story: { extension, assessment } }: { story: UnitStory }) {
  const { measures } = useSettings();
  const state = useFleetState();
  const [interval, setInterval] = useState('');
  const [name, setName] = useState('');
  const [note, setNote] = useState('');
  const [failed, setFailed] = useState<string | null>(null);
  const [sending, setSending] = useState(false);
  const { standing, blocked, refusals, evidence, bookKm, mostKm } = extension;
  const path = `/api/units/${encodeURIComponent(assessment.unitNumber)}/approvals`;
  const send = async (work: () => Promise<unknown>): Promise<void> => {
    setSending(true);
    setFailed(null);
    try {
      await work();
      state.again();
    } catch (reason) {
      setFailed(reason instanceof RequestError ? reason.message : String(reason));
    } finally {
      setSending(false);
    }
  };
  const approve = (): Promise<void> =>
    send(() =>
      write<'approveInterval'>(path, {
        intervalKm: Math.round(Number(interval) * (measures === 'us' ? kmPerMile : 1)),
        approvedBy: name,
        note,
      }),
    );
  const withdraw = (): Promise<void> =>
    send(() => write<'withdrawApproval'>(`${path}/withdrawal`, { withdrawnBy: name }));
  const nameField = (
    <label>
      Name of the person who answers for it
      <input required minLength={2} value={name} onInput={(event) => setName(event.currentTarget.value)} />
    </label>
  );
  return (
    <details class="no-print" open={standing !== null || blocked !== null}>
      <summary>
        A longer interval than the book
        {standing !== null &&
          `: ${distance(standing.intervalKm, measures)} approved by ${standing.approvedBy}`}
      </summary>
      {blocked !== null && <Notice kind="fault" words={`${blocked[0].toUpperCase()}${blocked.slice(1)}.`} />}
      {failed !== null && <Notice kind="fault" words={failed} />}
      {standing !== null && (
        <>
          <p>
            {distance(standing.intervalKm, measures)} approved by {standing.approvedBy} on{' '}
            {date(standing.approvedOn)}
            {standing.note !== null && `: ${standing.note}`}. It rests on {standing.evidence.join('; ')}.
            Every other limit still holds.
          </p>
          <form
            class="trial"
            onSubmit={(event) => {
              event.preventDefault();
              void withdraw();
            }}
          >
            {nameField}
            <button type="submit" disabled={sending}>
              Withdraw the approval
            </button>
          </form>
        </>
      )}
      {standing === null && refusals.length > 0 && (
        <>
          <p>An interval past the book can't be approved for this unit now:</p>
          <ul>
            {refusals.map((words) => (
              <li key={words}>{modelWords(words)}</li>
            ))}
          </ul>
        </>
      )}
      {standing === null && refusals.length === 0 && (
        <form
          class="trial"
          onSubmit={(event) => {
            event.preventDefault();
            void approve();
          }}
        >
          <p>
            The book says {distance(bookKm, measures)}; the oil's chemistry carries to{' '}
            {distance(mostKm, measures, true)}. In order: {evidence.join('; ')}.
          </p>
          <label>
            Interval in {measures === 'us' ? 'mi' : 'km'}
            <input
              type="number"
              required
              min={1}
              step={1}
              value={interval}
              onInput={(event) => setInterval(event.currentTarget.value)}
            />
          </label>
          {nameField}
          <label>
            Note
            <input maxLength={500} value={note} onInput={(event) => setNote(event.currentTarget.value)} />
          </label>
          <button type="submit" disabled={sending}>
            Approve the longer interval
          </button>
        </form>
      )}
    </details>
  );
}
