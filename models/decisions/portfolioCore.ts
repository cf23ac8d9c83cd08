import { solveMilp, type MilpSolver } from './milpSolver.ts';
import {
  choiceValue,
  fits,
  slackAfter,
  type Choice,
  type PortfolioEffort,
  type PortfolioItems,
} from './portfolioItems.ts';
import { portfolioMilp, priceBound, pricedValue } from './portfolioRelaxation.ts';
import { improveChoice } from './portfolioRounding.ts';

/** A choice with the value that no choice can exceed, cents. */
export interface ProvedChoice {
  /** null = no choice within the limits was found */
  readonly choice: Choice | null;
  readonly bound: number;
}

/**
 * Closes in on the best choice. An item whose priced value lies more than (bound − value) below its unit's best can not be
 * in a better choice, so only the others are given to the solver. First a narrow band of items near the best is settled,
 * which mostly reaches the wanted gap already; then wider ones; the last holds every item a better choice could have, so
 * that what the solver proves there holds for all.
 * @param prices of the limits, 0 or above
 * @param start a choice within the limits, or null when none is known
 * @returns the best choice found and the proved bound
 * Source: Kellerer, Pferschy & Pisinger, Knapsack Problems (2004), chapters 5.4 and 11 (core and reduction).
 */
export function closeIn(
  items: PortfolioItems,
  solver: MilpSolver,
  prices: Float64Array,
  start: Choice | null,
  effort: PortfolioEffort,
): ProvedChoice {
  const best = new Float64Array(items.unitCount);
  let bound = priceBound(items, prices, best);
  const lag = pricedLag(items, prices, best);
  const sorted = lag.toSorted();
  let choice = start;
  let value = choice ? choiceValue(items, choice) : -Infinity;
  for (const count of [100, 400, Infinity]) {
    if (bound - value <= effort.gap * Math.abs(bound) + 1e-6) break;
    const full = bound - value + 1e-6;
    // each unit's own best lies at 0, so the count is of the items beyond those
    const band = Math.min(full, sorted[items.unitCount + count] ?? Infinity);
    const found = solveBand(items, solver, lag, band, effort);
    if (found.choice) {
      improveChoice(items, prices, found.choice);
      const reached = choiceValue(items, found.choice);
      if (reached > value) [choice, value] = [found.choice, reached];
    }
    if (band === full) {
      bound = Math.max(value, Math.min(bound, found.bound));
      break;
    }
  }
  return { choice, bound };
}

/** How far the priced value of each item, and of running at the end of the list, lies below its unit's best. */
function pricedLag(items: PortfolioItems, prices: Float64Array, best: Float64Array): Float64Array {
  const lag = new Float64Array(items.option.length + items.unitCount);
  for (let unit = 0; unit < items.unitCount; unit++) {
    for (let item = items.start[unit]!; item < items.start[unit + 1]!; item++)
      lag[item] = best[unit]! - pricedValue(items, prices, item);
    lag[items.option.length + unit] = items.mayRun[unit] === 1 ? best[unit]! : Infinity;
  }
  return lag;
}

/** Best choice among the items within the band; its bound holds for every choice made of them. */
function solveBand(
  items: PortfolioItems,
  solver: MilpSolver,
  lag: Float64Array,
  band: number,
  effort: PortfolioEffort,
): { choice: Choice | null; bound: number } {
  const choice = new Int32Array(items.unitCount).fill(-1);
  const limits = items.limits.slice();
  const open: number[] = [];
  const columns: number[] = [];
  const columnUnit: number[] = [];
  let settledValue = 0;
  for (let unit = 0; unit < items.unitCount; unit++) {
    const mine: number[] = [];
    for (let item = items.start[unit]!; item < items.start[unit + 1]!; item++)
      if (lag[item]! <= band) mine.push(item);
    if (mine.length === 0) continue;
    if (mine.length > 1 || lag[items.option.length + unit]! <= band) {
      open.push(unit);
      for (const item of mine) {
        columns.push(item);
        columnUnit.push(unit);
      }
      continue;
    }
    const only = mine[0]!;
    choice[unit] = only;
    settledValue += items.valueCents[only]!;
    for (let k = 0; k < items.rowCount; k++) limits[k]! -= items.use[only * items.rowCount + k]!;
  }
  if (open.length === 0) return { choice: fits(limits) ? choice : null, bound: settledValue };
  const milp = portfolioMilp(items, Int32Array.from(columns), Int32Array.from(open), limits, true);
  const result = solveMilp(solver, milp, effort.gap / 4, effort.seconds);
  const bound = result.status === 'infeasible' ? -Infinity : settledValue - result.bound;
  if (result.values === null) return { choice: null, bound };
  columns.forEach((item, index) => {
    if (result.values![index]! > 0.5) choice[columnUnit[index]!] = item;
  });
  return { choice: fits(slackAfter(items, choice)) ? choice : null, bound };
}
