import type { DayOrder } from './planState.ts';
import type { SiteProblem } from './siteProblem.ts';

/**
 * Days of every bundle by cost plus price of the hours, cheapest first; days dearer than doing without are left out.
 * @param prices by type and day, cents, at [type·days + d]
 */
export function dayOrder(problem: SiteProblem, prices: Float64Array): DayOrder {
  const { costs, bundleStart, bundleFirstDay, bundleType, bundleOtherCents } = problem;
  const bundles = bundleType.length;
  const start = new Int32Array(bundles + 1);
  const days = new Int32Array(costs.length);
  const cents = new Float64Array(costs.length);
  const row: number[] = [];
  let count = 0;
  for (let b = 0; b < bundles; b++) {
    const toDay = bundleFirstDay[b]! - bundleStart[b]!;
    const base = bundleType[b]! * problem.days.length + toDay;
    row.length = 0;
    for (let i = bundleStart[b]!; i < bundleStart[b + 1]!; i++)
      if (costs[i]! + prices[base + i]! < bundleOtherCents[b]!) row.push(i);
    row.sort((x, y) => costs[x]! + prices[base + x]! - costs[y]! - prices[base + y]!);
    for (const i of row) {
      days[count] = i + toDay;
      cents[count] = costs[i]! + prices[base + i]!;
      count++;
    }
    start[b + 1] = count;
  }
  return { start, days: days.slice(0, count), cents: cents.slice(0, count) };
}
