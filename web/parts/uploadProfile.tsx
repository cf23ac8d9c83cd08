import { useState } from 'preact/hooks';
import { plain } from '../format/measures.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { Loading, Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

const numbers = ['missing', 'distinct', 'lowest', 'highest', 'mean'];
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
          <table class="stacking">
            <caption>From {plain(data.rows)} rows</caption>
            <ColumnHeads titles={['column', 'type', ...numbers]} numbers={numbers} />
            <tbody>
              {data.columns.map((column) => (
                <tr key={column.column}>
                  <th scope="row">{column.column}</th>
                  <td data-name="type">{column.type}</td>
                  <td class="number" data-name="missing">
                    {column.missing}
                  </td>
                  <td class="number" data-name="distinct">
                    {column.distinct}
                  </td>
                  <td class="number" data-name="lowest">
                    {shown(column.lowest)}
                  </td>
                  <td class="number" data-name="highest">
                    {shown(column.highest)}
                  </td>
                  <td class="number" data-name="mean">
                    {shown(column.mean)}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </details>
  );
}
