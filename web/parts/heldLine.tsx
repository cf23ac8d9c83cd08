import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { HeldAction, HeldRow } from '../../models/schema/intake.ts';

interface HeldLineProps {
  readonly row: HeldRow;
  readonly decide: (action: HeldAction, cells?: readonly string[]) => void;
}

/** A row under its file, line and unit. */
function HeldFrame({ row, children }: { row: HeldRow; children: ComponentChildren }) {
  return (
    <fieldset class="held-row">
      <legend>
        {row.file}, line {row.line}
        {row.unitNumber !== null && `, unit ${row.unitNumber}`}
      </legend>
      {children}
    </fieldset>
  );
}

/** One row that waits: what is wrong, its cells to change, and what can be done with it. */
export function HeldLine({ row, decide }: HeldLineProps) {
  const [cells, setCells] = useState<readonly string[]>(row.cells);
  const changed = cells.some((cell, index) => cell !== row.cells[index]);
  return (
    <HeldFrame row={row}>
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
      <Decisions row={row} />
      <button type="button" disabled={!changed} onClick={() => decide('mend', cells)}>
        Take in as changed
      </button>{' '}
      {row.mendCells !== null && (
        <>
          <button type="button" disabled={changed} onClick={() => decide('mend')}>
            Take in as suggested
          </button>{' '}
        </>
      )}
      <button type="button" disabled={changed} onClick={() => decide('accept')}>
        Accept as it is
      </button>{' '}
      <button type="button" onClick={() => decide('reject')}>
        Reject
      </button>
    </HeldFrame>
  );
}

/** One row that was decided: how, by whom and when; it can be opened again. */
export function DecidedLine({ row, decide }: HeldLineProps) {
  return (
    <HeldFrame row={row}>
      <p>{row.message}</p>
      <p class="muted">
        As the file had it:{' '}
        {row.header.map((name, at) => `${name} ${row.originalCells[at] ?? ''}`).join(', ')}
      </p>
      <Decisions row={row} />
      <button type="button" onClick={() => decide('reopen')}>
        Open it again
      </button>
    </HeldFrame>
  );
}

const words: Readonly<Record<string, string>> = {
  accept: 'accepted as it was',
  mend: 'taken in as changed',
  reject: 'rejected',
  reopen: 'opened again',
};

function Decisions({ row }: { row: HeldRow }) {
  if (row.decisions.length === 0) return null;
  return (
    <ul class="muted">
      {row.decisions.map(({ action, by, at }) => (
        <li key={at + action}>
          {words[action] ?? action} by {by}, {at.slice(0, 16).replace('T', ' ')}
        </li>
      ))}
    </ul>
  );
}
