import type { MilpSolver } from './milpSolver.ts';
import { planPortfolio, relativeGap, type PortfolioResult } from './portfolio.ts';
import type { PortfolioEffort, PortfolioProblem } from './portfolioItems.ts';

/** What one budget buys. */
export interface FrontierPoint {
  readonly budgetCents: number;
  readonly result: PortfolioResult;
}

/**
 * The efficient frontier: the best plan for each total budget. A plan for a smaller budget is kept where the search found
 * nothing better for a larger one, so that value never falls.
 * @param budgetsCents total budgets, 0 or more, cents; given back in rising order
 * @returns one point a budget with plan, value, bound and gap
 * @throws RangeError for a negative budget
 */
export function efficientFrontier(
  problem: PortfolioProblem,
  solver: MilpSolver,
  budgetsCents: readonly number[],
  effort: PortfolioEffort,
): readonly FrontierPoint[] {
  const points: FrontierPoint[] = [];
  for (const budgetCents of budgetsCents.toSorted((a, b) => a - b)) {
    const result = planPortfolio({ ...problem, totalBudgetCents: budgetCents }, solver, effort);
    const before = points.at(-1)?.result;
    const kept =
      before && before.overBudgetCents === 0 && before.valueCents > result.valueCents
        ? { ...before, boundCents: result.boundCents, gap: relativeGap(before.valueCents, result.boundCents) }
        : result;
    points.push({ budgetCents, result: kept });
  }
  return points;
}

/** Worth of a little more or less money. */
export interface MarginalValue {
  /** value gained by the next step of budget, cents, 0 or more */
  readonly nextCents: number;
  /** value that the last step of budget brought, cents, 0 or more */
  readonly lastCents: number;
  /** exact: both neighbours were solved to the end; price: worth of money at the relaxation */
  readonly basis: 'exact' | 'price';
  /** the plans for one step more and one step less; null where the worth is a price, or there is no limit */
  readonly neighbours: { readonly next: PortfolioResult; readonly last: PortfolioResult } | null;
}

/**
 * Worth of the next and of the last step (say one thousand) of the total budget. Where plan and neighbours are proved
 * best, the difference of their values; else the price of money at the relaxation times the step, because the difference
 * of two plans within a gap says nothing.
 * @param result the plan at the problem's own budget
 * @param stepCents size of the step, above 0, cents
 * @throws RangeError when the step is not above 0
 */
export function marginalValue(
  problem: PortfolioProblem,
  solver: MilpSolver,
  result: PortfolioResult,
  stepCents: number,
  effort: PortfolioEffort,
): MarginalValue {
  if (!(stepCents > 0)) throw new RangeError(`stepCents must be above 0, got ${stepCents}`);
  if (!(problem.totalBudgetCents < Infinity))
    return { nextCents: 0, lastCents: 0, basis: 'exact', neighbours: null };
  const at = (budget: number) =>
    planPortfolio({ ...problem, totalBudgetCents: Math.max(0, budget) }, solver, effort);
  const exact = (plan: PortfolioResult) => plan.gap < 1e-9 && plan.overBudgetCents === 0;
  if (exact(result)) {
    const next = at(problem.totalBudgetCents + stepCents);
    const last = at(problem.totalBudgetCents - stepCents);
    if (exact(next) && exact(last))
      return {
        nextCents: Math.max(0, next.valueCents - result.valueCents),
        lastCents: Math.max(0, result.valueCents - last.valueCents),
        basis: 'exact',
        neighbours: { next, last },
      };
  }
  const worth = Math.max(0, result.priceOfTotalBudget * stepCents);
  return { nextCents: worth, lastCents: worth, basis: 'price', neighbours: null };
}
