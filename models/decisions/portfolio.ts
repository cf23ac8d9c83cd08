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
  /** (bound − value) ÷ bound, 0 = proved best */
  readonly gap: number;
  /** what ranking by value for money would have lost, cents */
  readonly greedyLossCents: number;
  /** money above the limits that units which must be done take, cents */
  readonly overBudgetCents: number;
  /** worth of one more cent of each year's budget and of the total at the relaxation, cents */
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
  let working = items;
  let relaxed = items.option.length === 0 ? null : relaxPortfolio(solver, items, effort.seconds);
  if (relaxed === null && items.option.length > 0 && !fits(slackAfter(items, greedy))) {
    notes.push('what must be done takes more than the limits allow; it is kept, and nothing else is added');
    working = { ...items, limits: widened(items, greedy) };
    relaxed = relaxPortfolio(solver, working, effort.seconds);
  }
  let choice: Choice = greedy.slice();
  if (fits(slackAfter(working, choice)) && relaxed) improveChoice(working, relaxed.prices, choice);
  const rounded = relaxed && roundPortfolio(working, relaxed);
  if (rounded && choiceValue(items, rounded) > choiceValue(items, choice)) choice = rounded;
  let value = choiceValue(items, choice);
  let bound = items.option.length === 0 ? 0 : priceBound(working, relaxed?.prices ?? zeroPrices(working));
  if (relaxed && bound - value > effort.gap * Math.abs(bound) + 1e-6) {
    const closer = closeIn(working, solver, relaxed.prices, choice, effort);
    choice = closer.choice;
    value = choiceValue(items, choice);
    bound = Math.min(bound, closer.bound);
  }
  bound = Math.max(bound, value);
  return {
    ...describe(problem, items, choice),
    valueCents: value,
    boundCents: bound,
    gap: bound > 0 ? Math.max(0, (bound - value) / bound) : 0,
    greedyLossCents: fits(slackAfter(items, greedy)) ? Math.max(0, value - choiceValue(items, greedy)) : 0,
    priceOfTotalBudget: problem.totalBudgetCents < Infinity ? (relaxed?.prices[items.rowCount - 1] ?? 0) : 0,
    notes,
  };
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

function zeroPrices(items: PortfolioItems): Float64Array {
  return new Float64Array(items.rowCount);
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
