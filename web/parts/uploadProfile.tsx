import { useState } from 'preact/hooks';
import type { ColumnProfile } from '../../models/schema/intake.ts';
import { date } from '../format/dates.ts';
import { plain } from '../format/measures.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { Loading, Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

const numbers = ['missing', 'different', 'lowest or first', 'highest or last', 'mean', 'characters'];

function shown(value: number | string | null, { type, unit }: ColumnProfile): string {
  if (value === null) return '';
  if (typeof value === 'number') return [plain(value, 2), unit].filter((part) => part !== null).join(' ');
  return type === 'date' ? date(value) : value;
}

const typeWords = ({ type, unread }: ColumnProfile): string => {
  if (unread === 0) return type;
  return `${type}; ${plain(unread)} ${type === 'date' ? 'not settled, day or month may come first' : 'not read'}`;
};

const lengths = ({ type, shortest, longest }: ColumnProfile): string => {
  if (shortest === null || longest === null || (type !== 'name' && type !== 'text')) return '';
  return shortest === longest ? plain(longest) : `${plain(shortest)} to ${plain(longest)}`;
};

/** What the columns of a sample of the file hold, read when it is wanted. */
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
            <caption>
              From {plain(data.rows)} rows. Numbers that only name something, such as a unit or an order, have
              a first and a last instead of a mean.
            </caption>
            <ColumnHeads titles={['column', 'type', ...numbers]} numbers={numbers} />
            <tbody>
              {data.columns.map((column) => (
                <tr key={column.column}>
                  <th scope="row">{column.column}</th>
                  <td data-name="type">{typeWords(column)}</td>
                  <td class="number" data-name="missing">
                    {column.missing}
                  </td>
                  <td class="number" data-name="different">
                    {column.distinct}
                  </td>
                  <td class="number" data-name={column.type === 'number' ? 'lowest' : 'first'}>
                    {shown(column.lowest, column)}
                  </td>
                  <td class="number" data-name={column.type === 'number' ? 'highest' : 'last'}>
                    {shown(column.highest, column)}
                  </td>
                  <td class="number" data-name="mean">
                    {shown(column.mean, column)}
                  </td>
                  <td class="number" data-name="characters">
                    {lengths(column)}
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
