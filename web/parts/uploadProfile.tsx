import { useState } from 'preact/hooks';
import { plain } from '../format/measures.ts';
import { Loading, Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

const shown = (value: number | string | null): string =>
  value === null ? '' : typeof value === 'number' ? plain(value, 2) : value;

/** Types, missing values and extremes of a sample of the file, read when it is wanted. */
export function UploadProfile({ upload, name }: { upload: string; name: string }) {
  const [wanted, setWanted] = useState(false);
  const { data, error } = useRead<'profile'>(wanted ? `/api/uploads/${upload}/profile` : null);
  return (
    <details onToggle={(event) => setWanted(event.currentTarget.open)}>
      <summary>Profile of {name}: types, missing, extremes</summary>
      {wanted && data === null && error === null && <Loading what="a sample of the file" />}
      {error !== null && <Notice kind="fault" words={error.message} />}
      {data !== null && (
        <div class="table-frame" tabIndex={0} role="region" aria-label={`Profile of ${name}`}>
          <table>
            <caption>From {plain(data.rows)} rows</caption>
            <thead>
              <tr>
                <th scope="col">column</th>
                <th scope="col">type</th>
                <th scope="col" class="number">
                  missing
                </th>
                <th scope="col" class="number">
                  distinct
                </th>
                <th scope="col" class="number">
                  lowest
                </th>
                <th scope="col" class="number">
                  highest
                </th>
                <th scope="col" class="number">
                  mean
                </th>
              </tr>
            </thead>
            <tbody>
              {data.columns.map((column) => (
                <tr key={column.column}>
                  <th scope="row">{column.column}</th>
                  <td>{column.type}</td>
                  <td class="number">{column.missing}</td>
                  <td class="number">{column.distinct}</td>
                  <td class="number">{shown(column.lowest)}</td>
                  <td class="number">{shown(column.highest)}</td>
                  <td class="number">{shown(column.mean)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </details>
  );
}
