import type { DueTable } from '../charts/dueByWeek.ts';
import { columnWords } from '../charts/dueByWeek.ts';
import type { AttentionFilter } from './attentionFilters.tsx';

interface WeekTableProps {
  readonly table: DueTable;
  readonly room: number | null;
  readonly filter: AttentionFilter;
  readonly choose: (change: Partial<AttentionFilter>) => void;
}

/** The chart as a table, for keyboard and screen reader: a week or one of its numbers narrows the list. */
export function WeekTable({ table, room, filter, choose }: WeekTableProps) {
  const totals = table.labels.map((_, column) =>
    table.units.reduce((sum, rows) => sum + rows[column].length, 0),
  );
  const chosen = (column: number, reason: string): boolean =>
    filter.week === column && filter.reason === reason;
  const button = (column: number, reason: string, words: string, title?: string) => (
    <button
      type="button"
      aria-pressed={chosen(column, reason)}
      aria-label={title}
      onClick={() => choose(chosen(column, reason) ? { week: null, reason: '' } : { week: column, reason })}
    >
      {words}
    </button>
  );
  return (
    <details class="week-table">
      <summary>The same as a table</summary>
      <div class="table-frame" tabIndex={0} role="region" aria-label="Units due by week">
        <table class="stacking short-values">
          <caption>
            Units due by week{room === null ? '' : `; room for ${Math.round(room)} oil services a week`}.
            Choose a week, or a number, to narrow the list.
          </caption>
          <thead>
            <tr>
              <th scope="col">reason</th>
              {table.labels.map((label, column) => (
                <th scope="col" class="number" key={label}>
                  {button(column, '', label)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.reasons.map((reason, index) => (
              <tr key={reason}>
                <th scope="row">{reason}</th>
                {table.units[index].map((list, column) => (
                  <td class="number" key={table.labels[column]} data-name={table.labels[column]}>
                    {list.length > 0 &&
                      button(
                        column,
                        reason,
                        String(list.length),
                        `${list.length} by ${reason}, ${columnWords(table, column)}`,
                      )}
                  </td>
                ))}
              </tr>
            ))}
            <tr>
              <th scope="row">together</th>
              {totals.map((total, column) => (
                <td class="number" key={table.labels[column]} data-name={table.labels[column]}>
                  {total > 0 &&
                    button(column, '', String(total), `${total} together, ${columnWords(table, column)}`)}
                </td>
              ))}
            </tr>
          </tbody>
        </table>
      </div>
    </details>
  );
}
