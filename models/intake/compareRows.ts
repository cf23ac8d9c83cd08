/** A row of a file with the line on which it begins. */
export interface LinedRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/** A row of an earlier file and the row that stands for it in a corrected one. */
export interface ChangedRow<E extends LinedRow, N extends LinedRow> {
  readonly earlier: E;
  readonly now: N;
  /** a cell of the key itself changed */
  readonly isKeyChanged: boolean;
}

export interface RowsCompared<E extends LinedRow, N extends LinedRow> {
  readonly changed: readonly ChangedRow<E, N>[];
  readonly added: readonly N[];
  readonly gone: readonly E[];
}

const cellOf = (row: LinedRow, at: number) => (row.cells[at] ?? '').trim().toLowerCase();

function differing(a: LinedRow, b: LinedRow): number {
  let count = 0;
  for (let at = 0; at < Math.max(a.cells.length, b.cells.length); at += 1)
    if (cellOf(a, at) !== cellOf(b, at)) count += 1;
  return count;
}

function grouped<R extends LinedRow>(rows: readonly R[], keyOf: (row: R) => string): Map<string, R[]> {
  const groups = new Map<string, R[]>();
  for (const row of rows) {
    const key = keyOf(row);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return groups;
}

/**
 * Pairs the rows that two versions of a file do not share: first those with the same key, the most alike first; then
 * those that differ in one cell of their key alone.
 * @param earlier rows of the earlier version that the new one lacks
 * @param now rows of the new version that the earlier one lacks
 * @param keyAt positions of the cells that say which thing a row is about
 * @param looseAt those of them that may be what changed
 */
export function compareRows<E extends LinedRow, N extends LinedRow>(
  earlier: readonly E[],
  now: readonly N[],
  keyAt: readonly number[],
  looseAt: readonly number[] = keyAt,
): RowsCompared<E, N> {
  const changed: ChangedRow<E, N>[] = [];
  const pairedEarlier = new Set<E>();
  const pairedNow = new Set<N>();
  const pair = (one: E, other: N, isKeyChanged: boolean) => {
    changed.push({ earlier: one, now: other, isKeyChanged });
    pairedEarlier.add(one);
    pairedNow.add(other);
  };
  const pairBy = (keyOf: (row: LinedRow) => string, isKeyChanged: boolean) => {
    const candidates = grouped(
      earlier.filter((row) => !pairedEarlier.has(row)),
      keyOf,
    );
    for (const [key, rows] of grouped(
      now.filter((row) => !pairedNow.has(row)),
      keyOf,
    )) {
      const left = [...(candidates.get(key) ?? [])];
      for (const row of rows) {
        let best = -1;
        left.forEach((each, at) => {
          const chosen = left[best];
          if (chosen === undefined || differing(each, row) < differing(chosen, row)) best = at;
        });
        const [found] = best < 0 ? [] : left.splice(best, 1);
        if (found !== undefined) pair(found, row, isKeyChanged);
      }
    }
  };
  if (keyAt.length > 0) {
    pairBy((row) => keyAt.map((at) => cellOf(row, at)).join('\u0001'), false);
    for (const blank of looseAt)
      pairBy((row) => row.cells.map((_, at) => (at === blank ? '' : cellOf(row, at))).join('\u0001'), true);
  }
  return {
    changed: changed.sort((a, b) => a.now.line - b.now.line),
    added: now.filter((row) => !pairedNow.has(row)),
    gone: earlier.filter((row) => !pairedEarlier.has(row)),
  };
}
