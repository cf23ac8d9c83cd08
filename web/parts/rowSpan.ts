/** Which rows of a long list are in the document, and the room that the others take. */
export interface RowSpan {
  readonly first: number;
  /** one past the last */
  readonly end: number;
  /** height of the rows above and below, px */
  readonly above: number;
  readonly below: number;
}

/** What is seen of a list. */
export interface RowView {
  /** of the whole list */
  readonly count: number;
  /** height of one row, px: its own where it was measured, else that of rows on average */
  readonly heightOf: (row: number) => number;
  /** where the window begins and ends below the top of the list, px */
  readonly from: number;
  readonly to: number;
}

/** Rows drawn beyond what the window shows, at either end. */
const beyond = 10;
/** As many rows are always drawn: a list of no more is drawn whole. */
export const fewRows = 36;

/**
 * The rows that a window shows and some beyond it.
 * @example 100 rows of 50 px, window from 2000 to 3000 → rows 30 to 70, 1500 px above, 1500 px below
 */
export function rowSpan({ count, heightOf, from, to }: RowView): RowSpan {
  let [y, at] = [0, 0];
  while (at < count - 1 && y + heightOf(at) <= from) y += heightOf(at++);
  const shown = at;
  while (at < count && y < to) y += heightOf(at++);
  const first = count <= fewRows ? 0 : Math.max(0, Math.min(count - fewRows, shown - beyond));
  const end = Math.min(count, Math.max(at + beyond, first + fewRows));
  const sum = (start: number, stop: number): number => {
    let height = 0;
    for (let row = start; row < stop; row++) height += heightOf(row);
    return height;
  };
  return { first, end, above: sum(0, first), below: sum(end, count) };
}
