import type { ComponentChildren } from 'preact';
import { useMemo, useRef } from 'preact/hooks';
import { useRows } from './useRows.ts';

interface LineTableProps<T extends object> {
  readonly label: string;
  /** the list's own class: sets the height of its rows */
  readonly kind: string;
  readonly lines: readonly T[];
  readonly keyOf: (line: T) => string;
  readonly head: ComponentChildren;
  readonly columns: number;
  /** kept the same from one drawing to the next, rows that stay are not drawn again */
  readonly cells: (line: T) => ComponentChildren;
}

/** A table of any length: only the rows near the window are in the document; the keyboard and readers know how many there are. */
export function LineTable<T extends object>({
  label,
  kind,
  lines,
  keyOf,
  head,
  columns,
  cells,
}: LineTableProps<T>) {
  const frame = useRef<HTMLDivElement>(null);
  const { first, end, above, below } = useRows(frame, lines);
  const drawn = useMemo(() => ({ rows: new Map<T, ComponentChildren>() }), [cells]);
  const shown = lines.slice(first, end);
  drawn.rows = new Map(shown.map((line) => [line, drawn.rows.get(line) ?? cells(line)]));
  const gap = (height: number) =>
    height > 0 && (
      <tr class="gap" aria-hidden="true">
        <td colSpan={columns} style={{ height: `${height}px` }} />
      </tr>
    );
  return (
    <div class="table-frame" tabIndex={0} role="region" aria-label={label} ref={frame}>
      <table class={`lines stacking ${kind}`} aria-rowcount={lines.length + 1}>
        <thead>{head}</thead>
        <tbody>
          {gap(above)}
          {shown.map((line, index) => (
            <tr class="line" key={keyOf(line)} aria-rowindex={first + index + 2}>
              {drawn.rows.get(line)}
            </tr>
          ))}
          {gap(below)}
        </tbody>
      </table>
    </div>
  );
}
