import { useState } from 'preact/hooks';
import type { HeldRow } from '../../models/schema/intake.ts';
import { RequestError, write } from '../api.ts';
import { counted } from '../format/words.ts';
import { Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

type Action = 'accept' | 'reject' | 'mend';

/** Rows that wait for a decision, grouped by the question they pose. */
export function HeldDesk({ version, onDecided }: { version: unknown; onDecided: () => void }) {
  const [code, setCode] = useState<string | null>(null);
  const { data, again } = useRead<'held'>('/api/held', { code: code ?? undefined }, version);
  const [outcome, setOutcome] = useState<{ kind: 'done' | 'fault'; words: string } | null>(null);
  if (data === null || (data.groups.length === 0 && outcome === null)) return null;
  const decide = (ids: readonly number[], action: Action, cells?: readonly string[]): void => {
    write<'decideHeld'>('/api/held/decisions', { ids, action, cells })
      .then((answer) => {
        setOutcome(
          answer.refused.length === 0
            ? { kind: 'done', words: `${counted(answer.done, 'row')} decided.` }
            : { kind: 'fault', words: answer.refused[0].message },
        );
        again();
        onDecided();
      })
      .catch((reason: unknown) =>
        setOutcome({
          kind: 'fault',
          words: reason instanceof RequestError ? reason.message : String(reason),
        }),
      );
  };
  return (
    <section aria-labelledby="held-title">
      <h2 id="held-title">Held rows: each waits for a decision</h2>
      {outcome !== null && <Notice kind={outcome.kind} words={outcome.words} />}
      {data.groups.length === 0 && <p>None is left.</p>}
      <ul class="held-groups">
        {data.groups.map((group) => (
          <li key={group.code}>
            <button
              type="button"
              aria-pressed={code === group.code}
              onClick={() => setCode(code === group.code ? null : group.code)}
            >
              {counted(group.count, 'row')}
            </button>{' '}
            {group.message}
          </li>
        ))}
      </ul>
      {code !== null &&
        data.rows.map((row) => (
          <HeldLine key={row.id} row={row} decide={(action, cells) => decide([row.id], action, cells)} />
        ))}
      {code !== null && data.rows.length > 1 && (
        <p>
          <button
            type="button"
            onClick={() =>
              decide(
                data.rows.map((row) => row.id),
                'reject',
              )
            }
          >
            Reject all {data.rows.length} shown
          </button>
        </p>
      )}
    </section>
  );
}

function HeldLine({
  row,
  decide,
}: {
  row: HeldRow;
  decide: (action: Action, cells?: readonly string[]) => void;
}) {
  const [cells, setCells] = useState<readonly string[]>(row.cells);
  const changed = cells.some((cell, index) => cell !== row.cells[index]);
  return (
    <fieldset class="held-row">
      <legend>
        {row.file}, line {row.line}
        {row.unitNumber !== null && `, unit ${row.unitNumber}`}
      </legend>
      <p>
        {row.message}
        {row.mend !== null && <span> Suggested: {row.mend}</span>}
      </p>
      <div class="cells">
        {row.header.map((name, index) => (
          <label key={name}>
            {name}
            <input
              value={cells[index] ?? ''}
              onInput={(event) => {
                const text = event.currentTarget.value;
                setCells(row.header.map((_, at) => (at === index ? text : (cells[at] ?? ''))));
              }}
            />
          </label>
        ))}
      </div>
      <button type="button" disabled={!changed} onClick={() => decide('mend', cells)}>
        Take in as changed
      </button>{' '}
      <button type="button" disabled={changed} onClick={() => decide('accept')}>
        Accept as it is
      </button>{' '}
      <button type="button" onClick={() => decide('reject')}>
        Reject
      </button>
    </fieldset>
  );
}
