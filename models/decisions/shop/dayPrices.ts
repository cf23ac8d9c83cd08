import type { SiteProblem } from './siteProblem.ts';
import { cheapestSplit, type GroupSplits } from './visitSplits.ts';

/** What hours are worth by day, and what no plan can undercut. */
export interface DayPrices {
  /** no plan costs less, cents */
  readonly boundCents: number;
  /** cost with unlimited bays and people, cents */
  readonly idealCents: number;
  /** price of a visit's hours by type and day, cents, at [type·days + d] */
  readonly prices: Float64Array;
}

/** Prices of neighbouring days wait for each other where work queues for weeks: the direction remembers long. */
const smoothing = 0.05;
const settled = 0.0003;

/** Rows of room that are priced: all cells of a day, and for each skill those of the people who have it. */
interface Rows {
  readonly dayCount: number;
  /** cells by row and day, at [row·dayCount + d] */
  readonly room: Float64Array;
  /** rows that a type draws on */
  readonly typeRows: readonly (readonly number[])[];
}

/**
 * Prices for a cell of each day, and of each skill, that make the cheapest plans of all units, each for itself, add up to a
 * bound as high as found: Lagrangian relaxation of the day's room by smoothed subgradient steps that shrink geometrically.
 * @param steps most steps, 1 or more; 1 gives the ideal alone
 * Source: Held, Wolfe and Crowder, Mathematical Programming 6 (1974); geometric steps: Goffin, Mathematical Programming 13
 * (1977); values from memory.
 */
export function dayPrices(problem: SiteProblem, steps: number): DayPrices {
  const { bundles, splits, table, groupUnit } = problem;
  const rows = rowsOf(problem);
  const { dayCount, room, typeRows } = rows;
  const price = new Float64Array(room.length);
  const bestPrice = new Float64Array(room.length);
  const load = new Float64Array(room.length);
  const direction = new Float64Array(room.length);
  const prices = new Float64Array(table.typeLength.length * dayCount);
  const bundleCents = new Float64Array(bundles.length);
  const bundleDay = new Int32Array(bundles.length).fill(-1);

  const evaluate = (): number => {
    setPrices(problem, rows, price, prices);
    chooseDays(problem, prices, dayCount, bundleCents, bundleDay);
    let total = 0;
    for (let r = 0; r < room.length; r++) {
      total -= price[r] * room[r];
      load[r] = -room[r];
    }
    for (let group = 0; group < groupUnit.length; group++) {
      total += cheapestSplit(splits, group, bundleCents);
      addLoad(problem, splits, group, bundleDay, typeRows, dayCount, load);
    }
    return total;
  };

  let best = -Infinity;
  let idealCents = 0;
  // prices move far at first and settle by a fixed share each step
  let pace = 2 * usualPrice(problem);
  const decay = settled ** (1 / Math.max(1, steps));
  for (let step = 0; step < steps; step++) {
    const bound = evaluate();
    if (step === 0) idealCents = bound;
    if (bound > best) {
      best = bound;
      bestPrice.set(price);
    }
    for (let r = 0; r < room.length; r++) {
      direction[r] = smoothing * load[r] + (1 - smoothing) * direction[r];
      price[r] = Math.max(0, price[r] + (pace * direction[r]) / Math.max(1, room[r]));
    }
    pace *= decay;
  }
  setPrices(problem, rows, bestPrice, prices);
  return { boundCents: Math.max(best, idealCents), idealCents, prices };
}

/** What a cell is worth to a usual visit that is shifted by two working weeks, cents. */
function usualPrice({ bundles }: SiteProblem): number {
  let sum = 0;
  let count = 0;
  for (const { order, costs, firstDay, length } of bundles) {
    if (order.length === 0) continue;
    const far = order[Math.min(order.length - 1, 20)];
    sum += (costs[far - firstDay] - costs[order[0] - firstDay]) / length.cells;
    count += 1;
  }
  return count === 0 ? 1 : Math.max(1, sum / count);
}

function rowsOf({ table }: SiteProblem): Rows {
  const { laneCells, laneDay, laneSkills, skills, days, typeLength, typeSkills } = table;
  const dayCount = days.length;
  const reach = reachable(
    typeLength.flatMap(({ lastCells, fullDays }) =>
      fullDays > 0 ? [lastCells, table.dayCells] : [lastCells],
    ),
    table.openCells,
  );
  const room = new Float64Array((1 + skills.length) * dayCount);
  for (let lane = 0; lane < laneCells.length; lane++) {
    const cells = reach[laneCells[lane]];
    room[laneDay[lane]] += cells;
    for (let s = 0; s < skills.length; s++)
      if ((laneSkills[lane] >> s) & 1) room[(s + 1) * dayCount + laneDay[lane]] += cells;
  }
  const typeRows = typeSkills.map((need) => [
    0,
    ...skills.flatMap((_, s) => ((need >> s) & 1 ? [s + 1] : [])),
  ]);
  return { dayCount, room, typeRows };
}

/** The most cells of a lane that visits of the given lengths can fill, by the lane's cells. */
function reachable(lengths: readonly number[], most: number): Int32Array {
  const reached = new Uint8Array(most + 1);
  reached[0] = 1;
  const distinct = [...new Set(lengths)];
  const fill = new Int32Array(most + 1);
  for (let cells = 1; cells <= most; cells++) {
    reached[cells] = distinct.some((length) => length <= cells && reached[cells - length] === 1) ? 1 : 0;
    fill[cells] = reached[cells] === 1 ? cells : fill[cells - 1];
  }
  return fill;
}

function setPrices(
  { table }: SiteProblem,
  { dayCount, typeRows }: Rows,
  price: Float64Array,
  prices: Float64Array,
): void {
  table.typeLength.forEach(({ fullDays, lastCells }, type) => {
    for (let d = 0; d < dayCount; d++) {
      let sum = 0;
      for (const row of typeRows[type]) {
        const base = row * dayCount;
        for (let k = 0; k < fullDays && d + k < dayCount; k++) sum += price[base + d + k] * table.dayCells;
        if (d + fullDays < dayCount) sum += price[base + d + fullDays] * lastCells;
      }
      prices[type * dayCount + d] = sum;
    }
  });
}

/**
 * Cheapest day of each visit under the prices, which are 0 or more; −1 = cheaper without a bay of one's own. Days are looked
 * at in order of cost, from the day found last, until cost alone is too much.
 */
function chooseDays(
  { bundles }: SiteProblem,
  prices: Float64Array,
  dayCount: number,
  bundleCents: Float64Array,
  bundleDay: Int32Array,
): void {
  for (let b = 0; b < bundles.length; b++) {
    const { costs, searchCosts, order, type, firstDay, otherCents, otherMoveCents } = bundles[b];
    const base = type * dayCount;
    const last = bundleDay[b];
    const again = last < 0 ? Infinity : costs[last - firstDay] + prices[base + last];
    let best = Math.min(again, otherCents);
    let at = again < otherCents ? last : -1;
    for (const day of order) {
      const i = day - firstDay;
      // the order is that of cost and move together
      if (searchCosts[i] - otherMoveCents >= best) break;
      const cents = costs[i] + prices[base + day];
      if (cents < best) {
        best = cents;
        at = day;
      }
    }
    bundleCents[b] = best;
    bundleDay[b] = at;
  }
}

function addLoad(
  { bundles, table }: SiteProblem,
  { stateStart, stateChoice, choiceBundle, choiceRest }: GroupSplits,
  group: number,
  bundleDay: Int32Array,
  typeRows: Rows['typeRows'],
  dayCount: number,
  load: Float64Array,
): void {
  for (let state = stateStart[group + 1] - 1; state > stateStart[group];) {
    const bundle = choiceBundle[stateChoice[state]];
    const day = bundleDay[bundle];
    state = choiceRest[stateChoice[state]];
    if (day < 0) continue;
    const { type, length } = bundles[bundle];
    for (const row of typeRows[type]) {
      for (let k = 0; k < length.fullDays; k++) load[row * dayCount + day + k] += table.dayCells;
      load[row * dayCount + day + length.fullDays] += length.lastCells;
    }
  }
}
