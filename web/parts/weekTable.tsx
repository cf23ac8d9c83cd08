import type { DueTable } from '../charts/dueByWeek.ts';
import type { AttentionFilter } from './attentionFilters.tsx';

interface WeekTableProps {
  readonly table: DueTable;
  readonly room: number | null;
  readonly chosen: number | null;
  readonly choose: (change: Partial<AttentionFilter>) => void;
}

/** The chart as a table, for keyboard and screen reader: a week's button filters the list. */
export function WeekTable({ table, room, chosen, choose }: WeekTableProps) {
  return (
    <details class="week-table">
      <summary>The same as a table</summary>
      <div class="table-frame" tabIndex={0} role="region" aria-label="Units due by week">
        <table>
          <caption>
            Units due by week{room === null ? '' : `; room for ${Math.round(room)} visits a week`}. Choose a
            week to filter the list.
          </caption>
          <thead>
            <tr>
              <th scope="col">reason</th>
              {table.labels.map((label, column) => (
                <th scope="col" class="number" key={label}>
                  <button
                    type="button"
                    aria-pressed={chosen === column}
                    onClick={() => choose({ week: chosen === column ? null : column })}
                  >
                    {label}
                  </button>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.reasons.map((reason, index) => (
              <tr key={reason}>
                <th scope="row">{reason}</th>
                {table.units[index].map((list, column) => (
                  <td class="number" key={table.labels[column]}>
                    {list.length === 0 ? '' : list.length}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
