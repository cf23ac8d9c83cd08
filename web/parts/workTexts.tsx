import { useState } from 'preact/hooks';
import { workKinds, type WorkKind } from '../../models/schema/service.ts';
import type { UnknownText } from '../../models/schema/workTextEndpoints.ts';
import { RequestError, write } from '../api.ts';
import { date } from '../format/dates.ts';
import { counted } from '../format/words.ts';
import { workWords } from '../format/workWords.ts';
import { Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

const listed = (works: readonly WorkKind[]): string => works.map((work) => workWords[work]).join(' and ');

/** Work texts that are not understood, most rows first; a choice and a click teach one, and that can be taken back. */
export function WorkTexts({ version, onTaught }: { version: unknown; onTaught: () => void }) {
  const { data, again } = useRead<'workTexts'>('/api/work-texts', {}, version);
  const [outcome, setOutcome] = useState<{ kind: 'done' | 'fault'; words: string } | null>(null);
  if (data === null || (data.unknown.length === 0 && data.taught.length === 0 && outcome === null))
    return null;
  const settle = (work: Promise<{ rows: number }>, words: (rows: string) => string): void => {
    work
      .then(({ rows }) => {
        setOutcome({ kind: 'done', words: words(counted(rows, 'row')) });
        again();
        onTaught();
      })
      .catch((reason: unknown) =>
        setOutcome({
          kind: 'fault',
          words: reason instanceof RequestError ? reason.message : String(reason),
        }),
      );
  };
  const teach = (text: string, works: readonly WorkKind[]): void =>
    settle(
      write<'teachWorkText'>('/api/work-texts', { text, works }),
      (rows) => `“${text}” now means ${listed(works)}; ${rows} and all results are read again.`,
    );
  const forget = (text: string): void =>
    settle(
      write<'forgetWorkText'>('/api/work-texts/forget', { text }),
      (rows) => `“${text}” is read as before; ${rows} and all results are read again.`,
    );
  return (
    <section aria-labelledby="work-texts-title">
      <h2 id="work-texts-title">Work texts that are not understood</h2>
      {outcome !== null && <Notice kind={outcome.kind} words={outcome.words} />}
      {data.unknown.length === 0 ? (
        <p>None is left.</p>
      ) : (
        <>
          <p>
            What a shop wrote decides when the oil was changed. Say once what a text means and the whole
            history is read again.
          </p>
          <ul class="work-texts">
            {data.unknown.map((entry) => (
              <TextLine key={entry.text} entry={entry} teach={(works) => teach(entry.text, works)} />
            ))}
          </ul>
        </>
      )}
      {data.taught.length > 0 && (
        <details>
          <summary>Taught so far: {counted(data.taught.length, 'text')}</summary>
          <ul class="work-texts">
            {data.taught.map((entry) => (
              <li key={entry.text}>
                <p>
                  <q>{entry.text}</q> means {listed(entry.works)}; {counted(entry.count, 'row')}.{' '}
                  <span class="muted">
                    {new Date(entry.taughtAt).toLocaleDateString()}, {entry.taughtBy}
                  </span>
                </p>
                <button type="button" onClick={() => forget(entry.text)}>
                  Take back what was taught
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function TextLine({ entry, teach }: { entry: UnknownText; teach: (works: readonly WorkKind[]) => void }) {
  const [first, setFirst] = useState<WorkKind | ''>('');
  const [second, setSecond] = useState<WorkKind | ''>('');
  const works = [first, second].filter((work) => work !== '');
  const choice = (label: string, none: string, value: WorkKind | '', set: (work: WorkKind | '') => void) => (
    <label>
      {label}
      <select value={value} onChange={(event) => set(event.currentTarget.value as WorkKind | '')}>
        <option value="">{none}</option>
        {workKinds.map((work) => (
          <option key={work} value={work}>
            {workWords[work]}
          </option>
        ))}
      </select>
    </label>
  );
  return (
    <li>
      <p>
        <strong>{counted(entry.count, 'row')}</strong>: <q>{entry.text}</q>{' '}
        <span class="muted">
          e.g.{' '}
          {entry.examples
            .map((row) => `unit ${row.unitNumber} on ${date(row.on)} (${row.file} line ${row.line})`)
            .join('; ')}
        </span>
      </p>
      <div class="work-choice">
        {choice('It means', 'choose …', first, setFirst)}
        {first !== '' && first !== 'other' && choice('and', 'nothing else', second, setSecond)}
        <button type="button" disabled={works.length === 0} onClick={() => teach([...new Set(works)])}>
          Teach it
        </button>
      </div>
    </li>
  );
}
