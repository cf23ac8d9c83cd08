import { useState } from 'preact/hooks';
import type { HeldAction } from '../../models/schema/intake.ts';
import { RequestError, write } from '../api.ts';
import { counted } from '../format/words.ts';
import { DecidedLine, HeldLine } from './heldLine.tsx';
import { Notice } from './notice.tsx';
import { useRead } from './useRead.ts';
import { useWriter } from './writerName.tsx';

interface Outcome {
  readonly kind: 'done' | 'fault';
  readonly words: string;
  /** rows that were decided just now and can be opened again at once */
  readonly ids: readonly number[];
}

const states = { held: 'waiting', accepted: 'taken in', rejected: 'rejected' } as const;
type State = keyof typeof states;

/** Rows that wait for a decision, grouped by the question they pose; decided ones to open again. */
export function HeldDesk({ version, onDecided }: { version: unknown; onDecided: () => void }) {
  const [code, setCode] = useState<string | null>(null);
  const [state, setState] = useState<State>('held');
  const [by, setBy] = useWriter();
  const [busy, setBusy] = useState(false);
  const [outcome, setOutcome] = useState<Outcome | null>(null);
  const filter = { code: state === 'held' ? (code ?? undefined) : undefined, state };
  const { data, again } = useRead<'held'>('/api/held', filter, version);
  if (data === null || (data.groups.length === 0 && outcome === null && state === 'held' && !data.anyDecided))
    return null;
  const decide = (ids: readonly number[], action: HeldAction, cells?: readonly string[]): void => {
    setBusy(true);
    write<'decideHeld'>('/api/held/decisions', { ids, action, cells, by: by.trim() || undefined })
      .then((answer) => {
        const refused = new Set(answer.refused.map(({ id }) => id));
        const done = `${counted(answer.done, 'row')} ${action === 'reopen' ? 'opened again' : 'decided'}.`;
        setOutcome({
          kind: refused.size === 0 ? 'done' : 'fault',
          words: refused.size === 0 ? done : `${done} ${answer.refused[0]?.message ?? ''}`,
          ids: action === 'reopen' ? [] : ids.filter((id) => !refused.has(id)),
        });
        again();
        onDecided();
      })
      .catch((reason: unknown) =>
        setOutcome({
          kind: 'fault',
          words: reason instanceof RequestError ? reason.message : String(reason),
          ids: [],
        }),
      )
      .finally(() => setBusy(false));
  };
  const group = data.groups.find((each) => each.code === code);
  // what was decided just now is gone before the list has been read again
  const rows = data.rows.filter(({ id }) => state !== 'held' || outcome?.ids.includes(id) !== true);
  const ids = rows.map((row) => row.id);
  const mendable = rows.filter((row) => row.mendCells !== null).map((row) => row.id);
  return (
    <section aria-labelledby="held-title">
      <h2 id="held-title">Held rows: each waits for a decision</h2>
      {outcome !== null && <Notice kind={outcome.kind} words={outcome.words} />}
      {outcome !== null && outcome.ids.length > 0 && (
        <p>
          <button type="button" disabled={busy} onClick={() => decide(outcome.ids, 'reopen')}>
            Undo: open {counted(outcome.ids.length, 'row')} again
          </button>
        </p>
      )}
      <p class="held-choice">
        <label>
          Your name, kept with each decision{' '}
          <input value={by} autoComplete="name" onInput={(event) => setBy(event.currentTarget.value)} />
        </label>{' '}
        <label>
          Show rows{' '}
          <select value={state} onChange={(event) => setState(event.currentTarget.value as State)}>
            {Object.entries(states).map(([name, words]) => (
              <option key={name} value={name}>
                {words}
              </option>
            ))}
          </select>
        </label>
      </p>
      {state === 'held' && data.groups.length === 0 && <p>None is left.</p>}
      {state === 'held' && (
        <ul class="held-groups">
          {data.groups.map((each) => (
            <li key={each.code}>
              <button
                type="button"
                aria-pressed={code === each.code}
                onClick={() => setCode(code === each.code ? null : each.code)}
              >
                {counted(each.count, 'row')}
              </button>{' '}
              {each.message}
            </li>
          ))}
        </ul>
      )}
      <fieldset class="held-deciding" disabled={busy}>
        {state === 'held' && group !== undefined && ids.length > 1 && (
          <p class="actions">
            {mendable.length > 0 && (
              <>
                <button type="button" onClick={() => decide(mendable, 'mend')}>
                  Take in {mendable.length} as suggested
                </button>{' '}
              </>
            )}
            <button type="button" onClick={() => decide(ids, 'accept')}>
              Accept all {ids.length} shown as they are
            </button>{' '}
            <button type="button" onClick={() => decide(ids, 'reject')}>
              Reject all {ids.length} shown
            </button>
          </p>
        )}
        {state === 'held' &&
          code !== null &&
          rows.map((row) => (
            <HeldLine key={row.id} row={row} decide={(action, cells) => decide([row.id], action, cells)} />
          ))}
        {state !== 'held' && rows.length === 0 && <p>None.</p>}
        {state !== 'held' &&
          rows.map((row) => (
            <DecidedLine key={row.id} row={row} decide={(action) => decide([row.id], action)} />
          ))}
      </fieldset>
    </section>
  );
}
