import { useState } from 'preact/hooks';
import { RequestError, write } from '../api.ts';
import { counted } from '../format/words.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

interface BatchListProps {
  readonly version: unknown;
  /** the batch that has just come in; until the list holds it nothing can be taken back */
  readonly newest: string | null;
  readonly onUndone: () => void;
}

/** Every intake so far, newest first, each of which can be taken back. */
export function BatchList({ version, newest, onUndone }: BatchListProps) {
  const { data, again, loading } = useRead<'batches'>('/api/intake/batches', {}, version);
  const [asking, setAsking] = useState<string | null>(null);
  const [outcome, setOutcome] = useState<{ kind: 'done' | 'fault'; words: string } | null>(null);
  const undo = (batch: string): void => {
    setAsking(null);
    write<'undo'>(`/api/intake/batches/${batch}/undo`, {})
      .then((answer) => {
        setOutcome({
          kind: 'done',
          words: `Batch ${batch} is taken back; ${counted(answer.removed, 'record')} removed.`,
        });
        again();
        onUndone();
      })
      .catch((reason: unknown) =>
        setOutcome({
          kind: 'fault',
          words: reason instanceof RequestError ? reason.message : String(reason),
        }),
      );
  };
  const isOld = loading || (newest !== null && data?.batches.some(({ batch }) => batch === newest) === false);
  return (
    <section aria-labelledby="batches-title">
      <h2 id="batches-title">What came in before</h2>
      {outcome !== null && <Notice kind={outcome.kind} words={outcome.words} />}
      {data !== null && data.batches.length === 0 && <p>Nothing yet.</p>}
      {data !== null && data.batches.length > 0 && (
        <div class="table-frame" tabIndex={0} role="region" aria-label="Intakes">
          <table class="stacking">
            <ColumnHeads titles={['Batch', 'When', 'Files', 'Undo']} />
            <tbody>
              {data.batches.map((batch) => (
                <tr key={batch.batch}>
                  <td data-name="batch">{batch.batch}</td>
                  <td data-name="when">
                    {new Date(batch.madeAt).toLocaleString()} ({batch.madeBy})
                  </td>
                  <td>
                    {batch.files.map((file) => (
                      <div key={file.file}>
                        {file.file}: {counted(file.rowsRead, 'row')} = {file.accepted} + {file.duplicates}{' '}
                        duplicate + {file.held} held + {file.rejected} left out
                      </div>
                    ))}
                  </td>
                  <td>
                    {batch.undoneAt !== null ? (
                      <span class="muted">taken back {new Date(batch.undoneAt).toLocaleDateString()}</span>
                    ) : asking === batch.batch ? (
                      <>
                        Remove all its records?{' '}
                        <button type="button" onClick={() => undo(batch.batch)}>
                          Take batch {batch.batch} back
                        </button>{' '}
                        <button type="button" onClick={() => setAsking(null)}>
                          Keep it
                        </button>
                      </>
                    ) : (
                      <button type="button" disabled={isOld} onClick={() => setAsking(batch.batch)}>
                        Take back
                      </button>
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}
