import type { SiteProblem } from './siteProblem.ts';
import type { VisitPairs } from './visitPairs.ts';

/** What one lane can hold of the visits of a day, each group at most once. */
export interface LaneWorth {
  readonly visits: readonly number[];
  /** worth of each above its cost on that day, cents */
  readonly worths: readonly number[];
  /** most worth in so many cells, cents */
  readonly top: (cells: number) => number;
  /** the same without the group of the visit at this position */
  readonly beside: (position: number, cells: number) => number;
}

/** Visits within a day, and their cost, by day. */
export interface DayVisits {
  readonly visits: readonly number[];
  readonly cents: readonly number[];
}

/** The visits that may begin on each day and end on it. */
export function dayVisits({ bundles, table }: SiteProblem, pairs: VisitPairs): readonly DayVisits[] {
  const days = table.days.map(() => ({ visits: [] as number[], cents: [] as number[] }));
  bundles.forEach(({ length }, b) => {
    if (length.fullDays > 0) return;
    for (let i = pairs.start[b]; i < pairs.start[b + 1]; i++) {
      days[pairs.day[i]].visits.push(b);
      days[pairs.day[i]].cents.push(pairs.cents[i]);
    }
  });
  return days;
}

/**
 * Knapsacks of one lane from the first group on and from the last, so that each group can be left out.
 * @param visitCents worth of each visit, cents
 * @param slackCents a visit that costs this much more than it is worth is left out
 * Source: knapsack by dynamic programming, Martello and Toth, Knapsack Problems (1990), value from memory.
 */
export function laneWorth(
  { table, bundles }: SiteProblem,
  day: DayVisits,
  visitCents: Float64Array,
  lane: number,
  slackCents: number,
): LaneWorth {
  const cells = table.laneCells[lane];
  const width = cells + 1;
  const byGroup = new Map<number, number[]>();
  const visits: number[] = [];
  const worths: number[] = [];
  day.visits.forEach((b, i) => {
    const { length, type, group } = bundles[b];
    const need = table.typeSkills[type];
    const worth = visitCents[b] - day.cents[i];
    if (worth < -slackCents || length.lastCells > cells || (table.laneSkills[lane] & need) !== need) return;
    const own = byGroup.get(group);
    const at = visits.push(b) - 1;
    worths.push(worth);
    if (own === undefined) byGroup.set(group, [at]);
    else own.push(at);
  });
  const groups = [...byGroup.values()];
  const count = groups.length;
  const rowOf = new Int32Array(visits.length);
  groups.forEach((own, row) => own.forEach((at) => (rowOf[at] = row)));
  const before = new Float64Array((count + 1) * width);
  const after = new Float64Array((count + 1) * width);
  const add = (from: Float64Array, source: number, target: number, own: readonly number[]): void => {
    for (let x = 0; x <= cells; x++) {
      let best = from[source * width + x];
      for (const at of own) {
        const length = bundles[visits[at]].length.lastCells;
        if (length <= x) best = Math.max(best, from[source * width + x - length] + worths[at]);
      }
      from[target * width + x] = best;
    }
  };
  for (let row = 0; row < count; row++) add(before, row, row + 1, groups[row]);
  for (let row = count - 1; row >= 0; row--) add(after, row + 1, row, groups[row]);
  return {
    visits,
    worths,
    top: (x) => before[count * width + x],
    beside: (position, x) => {
      const row = rowOf[position];
      let best = 0;
      for (let y = 0; y <= x; y++)
        best = Math.max(best, before[row * width + y] + after[(row + 1) * width + x - y]);
      return best;
    },
  };
}
