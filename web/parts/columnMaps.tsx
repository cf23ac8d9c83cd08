import { useState } from 'preact/hooks';
import { RequestError, write } from '../api.ts';
import { fieldWords, kindName } from '../format/fieldWords.ts';
import { counted } from '../format/words.ts';
import { Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

/** Column maps that people kept: files of the same layout are read by them; each can be renamed and forgotten. */
export function ColumnMaps({ version }: { version: unknown }) {
  const { data, again } = useRead<'columnMaps'>('/api/column-maps', {}, version);
  const [fault, setFault] = useState<string | null>(null);
  if (data === null || data.maps.length === 0) return null;
  const settle = (work: Promise<unknown>): void => {
    work
      .then(() => {
        setFault(null);
        again();
      })
      .catch((reason: unknown) => setFault(reason instanceof RequestError ? reason.message : String(reason)));
  };
  return (
    <section aria-labelledby="maps-title">
      <h2 id="maps-title">Column maps</h2>
      <p>Files with the same column names are read by the map that was kept for them.</p>
      {fault !== null && <Notice kind="fault" words={fault} />}
      <ul class="column-maps">
        {data.maps.map((map) => (
          <li key={map.name}>
            <p>
              <strong>{map.name}</strong>: {kindName(map.kind)}, {counted(map.headers.length, 'column')};{' '}
              {Object.entries(map.columns)
                .map(([header, { field, unit }]) =>
                  field === null
                    ? `${header} is left aside`
                    : `${header} is ${fieldWords(map.kind, field)}${unit === null || unit === undefined ? '' : ` in ${unit}`}`,
                )
                .join(', ')}
              .{' '}
              <span class="muted">
                {new Date(map.madeAt).toLocaleDateString()}, {map.madeBy}
              </span>
            </p>
            <form
              class="work-choice"
              onSubmit={(event) => {
                event.preventDefault();
                const to = new FormData(event.currentTarget).get('to');
                settle(write<'renameColumnMap'>('/api/column-maps/rename', { name: map.name, to }));
              }}
            >
              <label>
                Name
                <input name="to" required maxLength={100} defaultValue={map.name} />
              </label>
              <button type="submit">Rename</button>
              <button
                type="button"
                aria-label={`Forget the map ${map.name}`}
                onClick={() =>
                  settle(write<'deleteColumnMap'>('/api/column-maps/delete', { name: map.name }))
                }
              >
                Forget it
              </button>
            </form>
          </li>
        ))}
      </ul>
    </section>
  );
}
