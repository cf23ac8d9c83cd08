import type { ComponentChild } from 'preact';
import { ColumnHeads } from './columnHeads.tsx';

interface TableProps {
  readonly label: string;
  readonly header: readonly string[];
  /** titles of columns that hold numbers */
  readonly numbers?: readonly string[];
  readonly rows: readonly { readonly key: string; readonly cells: readonly ComponentChild[] }[];
}

/** A plain table in a frame that scrolls, blocks on a phone, nothing without rows; the first cell of a row names it. */
export function LineTable({ label, header, numbers = [], rows }: TableProps) {
  if (rows.length === 0) return null;
  const of = (title: string): string | undefined => (numbers.includes(title) ? 'number' : undefined);
  return (
    <div class="table-frame plan-table" tabIndex={0} role="region" aria-label={label}>
      <table class="stacking">
        <ColumnHeads titles={header} numbers={numbers} />
        <tbody>
          {rows.map(({ key, cells: [first, ...others] }) => (
            <tr key={key}>
              <th scope="row">{first}</th>
              {others.map((cell, index) => (
                <td key={header[index + 1]} class={of(header[index + 1])} data-name={header[index + 1]}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
