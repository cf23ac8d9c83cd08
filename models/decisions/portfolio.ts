import type { MilpSolver } from './milpSolver.ts';
import { closeIn } from './portfolioCore.ts';
import { greedyChoice } from './portfolioGreedy.ts';
import {
  choiceValue,
  fits,
  portfolioItems,
  slackAfter,
  type Choice,
  type PortfolioEffort,
  type PortfolioItems,
  type PortfolioProblem,
} from './portfolioItems.ts';
import { priceBound, relaxPortfolio } from './portfolioRelaxation.ts';
import { improveChoice, roundPortfolio } from './portfolioRounding.ts';

/** The best plan found and what is proved about it. */
export interface PortfolioResult {
  /** index of the option taken for each unit, null = run */
  readonly chosen: readonly (number | null)[];
  readonly valueCents: number;
  readonly costCents: number;
  readonly costCentsByYear: readonly number[];
  readonly hoursByYear: readonly number[];
  /** no plan within the limits is worth more, cents */
  readonly boundCents: number;
  /** (bound − value) ÷ |bound|, 0 = proved best */
  readonly gap: number;
  /** what ranking by value for money would have lost, cents */
  readonly greedyLossCents: number;
  /** money above the limits that units which must be done take, cents */
  readonly overBudgetCents: number;
  /** worth of one more cent of the total budget at the relaxation, cents; 0 where there is no total */
  readonly priceOfTotalBudget: number;
  readonly notes: readonly string[];
}

/**
 * The plan worth most under yearly budgets, yearly shop hours and a total budget, at most one option a unit
 * (multiple-choice knapsack). The relaxation gives prices of the limits; the choice rounded from it is improved; items
 * whose priced value shows that no better plan holds them are left out, and the solver settles the rest. The bound is
 * proved at every step, so the gap is.
 * @param problem units, options, limits
 * @param solver HiGHS
 * @param effort gap and time
 * @returns plan, value, proved bound and gap; see the test for knapsacks P07 and P08
 * @throws RangeError as {@link portfolioItems}
 * Source: Kellerer, Pferschy & Pisinger, Knapsack Problems (2004), chapter 11; Fisher, Management Science 27 (1981).
 */
export function planPortfolio(
  problem: PortfolioProblem,
  solver: MilpSolver,
  effort: PortfolioEffort = { gap: 0, seconds: 20 },
): PortfolioResult {
  const items = portfolioItems(problem);
  const costCents = itemCosts(problem, items);
  const greedy = greedyChoice(items, costCents);
  const notes = [...items.notes];
  let proved = search(items, solver, greedy, effort);
  if (proved.choice === null) {
    notes.push(
      'what must be done takes more than the limits allow; it is kept, and the rest gets what is left',
    );
    proved = search({ ...items, limits: widened(items, greedy) }, solver, greedy, effort);
  }
  const choice = proved.choice ?? greedy;
  const value = choiceValue(items, choice);
  const bound = Math.max(value, proved.bound);
  return {
    ...describe(problem, items, choice),
    valueCents: value,
    boundCents: bound,
    gap: relativeGap(value, bound),
    greedyLossCents: fits(slackAfter(items, greedy)) ? Math.max(0, value - choiceValue(items, greedy)) : 0,
    priceOfTotalBudget: problem.totalBudgetCents < Infinity ? (proved.prices[items.rowCount - 1] ?? 0) : 0,
    notes,
  };
}

/** (bound − value) ÷ |bound|; 0 when they agree to a hundredth of a cent. */
export function relativeGap(valueCents: number, boundCents: number): number {
  const apart = boundCents - valueCents;
  return apart < 1e-2 ? 0 : apart / Math.max(Math.abs(boundCents), 1e-2);
}

/** Relaxation, rounding and closing in; the choice is null when none keeps the limits. */
function search(
  items: PortfolioItems,
  solver: MilpSolver,
  greedy: Choice,
  effort: PortfolioEffort,
): { choice: Choice | null; bound: number; prices: Float64Array } {
  const noPrices = new Float64Array(items.rowCount);
  const fitting = fits(slackAfter(items, greedy)) ? greedy.slice() : null;
  if (items.option.length === 0) return { choice: fitting, bound: 0, prices: noPrices };
  const relaxed = relaxPortfolio(solver, items, effort.seconds);
  if (relaxed === null) return { choice: fitting, bound: priceBound(items, noPrices), prices: noPrices };
  const { prices } = relaxed;
  if (fitting) improveChoice(items, prices, fitting);
  const rounded = roundPortfolio(items, relaxed);
  const value = (choice: Choice | null) => (choice ? choiceValue(items, choice) : -Infinity);
  const start = value(rounded) > value(fitting) ? rounded : fitting;
  return { ...closeIn(items, solver, prices, start, effort), prices };
}

function itemCosts(problem: PortfolioProblem, items: PortfolioItems): Float64Array {
  const costs = new Float64Array(items.option.length);
  problem.units.forEach((unit, u) => {
    for (let item = items.start[u]!; item < items.start[u + 1]!; item++)
      costs[item] = unit.options[items.option[item]!]!.costCents;
  });
  return costs;
}

function widened(items: PortfolioItems, choice: Choice): Float64Array {
  const left = slackAfter(items, choice);
  return items.limits.map((limit, k) => Math.max(limit, limit - left[k]!));
}

function describe(problem: PortfolioProblem, items: PortfolioItems, choice: Choice) {
  const costCentsByYear = problem.budgetCentsByYear.map(() => 0);
  const hoursByYear = problem.hoursByYear.map(() => 0);
  const chosen = problem.units.map((unit, u) => {
    const item = choice[u]!;
    if (item < 0) return null;
    const index = items.option[item]!;
    const option = unit.options[index]!;
    costCentsByYear[option.year]! += option.costCents;
    hoursByYear[option.year]! += option.hours;
    return index;
  });
  const costCents = costCentsByYear.reduce((a, b) => a + b, 0);
  const overBudgetCents = Math.max(
    0,
    costCents - problem.totalBudgetCents,
    ...costCentsByYear.map((cents, year) => cents - problem.budgetCentsByYear[year]!),
  );
  return { chosen, costCents, costCentsByYear, hoursByYear, overBudgetCents };
}
