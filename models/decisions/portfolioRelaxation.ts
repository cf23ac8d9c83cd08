import { solveMilp, type MilpProblem, type MilpSolver } from './milpSolver.ts';
import type { PortfolioItems } from './portfolioItems.ts';

/** The portfolio with parts of options allowed: shares of each item and the worth of each limit. */
export interface Relaxation {
  readonly shares: Float64Array;
  /** cents for one more unit of each row, 0 or more */
  readonly prices: Float64Array;
}

/**
 * The problem of {@link PortfolioItems} for the solver: most value, at most (or exactly) one option a unit, limits kept.
 * @param kept items that take part, in order
 * @param units units that take part; the others are run
 * @param limits of the rows, after what is already decided
 */
export function portfolioMilp(
  items: PortfolioItems,
  kept: Int32Array,
  units: Int32Array,
  limits: Float64Array,
  whole: boolean,
): MilpProblem {
  const rows = units.length + items.rowCount;
  const column = new Int32Array(items.option.length).fill(-1);
  kept.forEach((item, index) => (column[item] = index));
  const starts = new Int32Array(rows + 1);
  const indices: number[] = [];
  const values: number[] = [];
  units.forEach((unit, row) => {
    for (let item = items.start[unit]!; item < items.start[unit + 1]!; item++)
      if (column[item]! >= 0) {
        indices.push(column[item]!);
        values.push(1);
      }
    starts[row + 1] = indices.length;
  });
  for (let k = 0; k < items.rowCount; k++) {
    kept.forEach((item, index) => {
      const use = items.use[item * items.rowCount + k]!;
      if (use === 0) return;
      indices.push(index);
      values.push(use);
    });
    starts[units.length + k + 1] = indices.length;
  }
  const rowLower = new Float64Array(rows).fill(-Infinity);
  const rowUpper = new Float64Array(rows).fill(1);
  units.forEach((unit, row) => {
    if (items.mayRun[unit] === 0) rowLower[row] = 1;
  });
  rowUpper.set(limits, units.length);
  return {
    numCols: kept.length,
    numRows: rows,
    colCost: Float64Array.from(kept, (item) => -items.valueCents[item]!),
    colLower: new Float64Array(kept.length),
    colUpper: new Float64Array(kept.length).fill(1),
    rowLower,
    rowUpper,
    matrix: {
      format: 'csr',
      numRows: rows,
      numCols: kept.length,
      starts,
      indices: Int32Array.from(indices),
      values: Float64Array.from(values),
    },
    ...(whole ? { integrality: new Int32Array(kept.length).fill(1) } : {}),
  };
}

/** Solves the relaxation; null when even that can not keep the limits, or the time ran out. */
export function relaxPortfolio(
  solver: MilpSolver,
  items: PortfolioItems,
  seconds: number,
): Relaxation | null {
  const kept = Int32Array.from(items.option.keys());
  const units = Int32Array.from(items.mayRun.keys());
  const problem = portfolioMilp(items, kept, units, items.limits, false);
  const result = solveMilp(solver, problem, 0, seconds);
  if (result.status !== 'optimal' || result.values === null) return null;
  const duals = result.rowDual.subarray(units.length);
  return { shares: result.values, prices: Float64Array.from(duals, (dual) => Math.max(0, -dual)) };
}

/**
 * Lagrangian bound: no choice is worth more than Σ price·limit + Σ_u max(0, value − price·use), for any prices 0 or above.
 * @param best filled with each unit's greatest priced value, when given
 * @returns cents; an upper bound on the value of every choice that keeps the limits
 * Source: Fisher, Management Science 27 (1981) 1–18.
 */
export function priceBound(items: PortfolioItems, prices: Float64Array, best?: Float64Array): number {
  let bound = 0;
  for (let k = 0; k < items.rowCount; k++) bound += prices[k]! * items.limits[k]!;
  for (let unit = 0; unit < items.unitCount; unit++) {
    let most = items.mayRun[unit] === 1 ? 0 : -Infinity;
    for (let item = items.start[unit]!; item < items.start[unit + 1]!; item++)
      most = Math.max(most, pricedValue(items, prices, item));
    if (best) best[unit] = most;
    bound += most;
  }
  return bound;
}

/** Value of an item less its use of the limits at their prices, cents. */
export function pricedValue(items: PortfolioItems, prices: Float64Array, item: number): number {
  let value = items.valueCents[item]!;
  for (let k = 0; k < items.rowCount; k++) value -= prices[k]! * items.use[item * items.rowCount + k]!;
  return value;
}
