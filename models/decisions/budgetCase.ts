import { isoFromDay } from '../schema/day.ts';
import { budgetPortfolio, plannedActions, simulatedUnits, type BudgetPortfolio } from './budgetPlan.ts';
import type { BudgetCase, BudgetInputs, BudgetLevel, BudgetLine } from './budgetTypes.ts';
import { coefficientValue } from './coefficientValue.ts';
import { monthlyRate } from './monthlyRate.ts';
import { savedMoreBy, waitingOf } from './planDraws.ts';
import { planPortfolio, type PortfolioResult } from './portfolio.ts';
import { efficientFrontier, marginalValue } from './portfolioFrontier.ts';
import { wholeCents } from './range.ts';
import { simulateFleet } from './simulation.ts';
import { planOutlook, type PlanOutlook } from './simulationSummary.ts';
import { planTornado } from './tornado.ts';
import type { UnitOption } from './unitOption.ts';
import { recommendUnit, type UnitRecommendation } from './unitRecommendation.ts';
import { moneyWords } from './words.ts';

const daysPerMonth = 365.25 / 12;
/** One thousand of the currency, in cents. */
const thousandCents = 100_000;

/**
 * The budget case: run to failure against planned work under a budget. Every unit is judged by itself, the budget is
 * spent where it saves most, and the plan is simulated against running everything under the same draws.
 * @param inputs units, amount, months; see {@link BudgetInputs}
 * @returns whole cents, 80 % ranges, reasons for every unit left alone; a two-unit case is worked by hand in the test
 * @throws RangeError for an amount below 0, months outside 1..60, a unit number twice, or impossible unit values
 * Source: {@link recommendUnit}, {@link planPortfolio}, {@link simulateFleet}.
 */
export function budgetCase(inputs: BudgetInputs): BudgetCase {
  checkInputs(inputs);
  const { coefficients, solver, asOfDay, months } = inputs;
  const effort = inputs.effort ?? { gap: 0.0005, seconds: 10 };
  const recommendations = inputs.units.map((unit) =>
    recommendUnit(unit, asOfDay, months, coefficients, inputs.currency),
  );
  inputs.progress?.(1);
  const portfolio = budgetPortfolio(inputs, recommendations);
  const result = planPortfolio(portfolio.problem, solver, effort);
  inputs.progress?.(2);
  const optionsOf = (plan: PortfolioResult): UnitOption[] =>
    plan.chosen.flatMap((index, u) => (index === null ? [] : [portfolio.options[u]![index]!]));
  const margin = marginalValue(portfolio.problem, solver, result, thousandCents, effort);
  const worthwhileCents = planPortfolio(
    { ...portfolio.problem, totalBudgetCents: Infinity },
    solver,
    effort,
  ).costCents;
  const frontier = efficientFrontier(
    portfolio.problem,
    solver,
    budgetsShown(inputs, worthwhileCents),
    effort,
  );
  inputs.progress?.(3);
  const outlooks = simulate(inputs, recommendations, portfolio, [
    result,
    ...frontier.map((point) => point.result),
  ]);
  inputs.progress?.(4);
  const [without, outlook] = [outlooks.base, outlooks.plans[0]!];
  const chosen = chosenLines(result, portfolio, recommendations, asOfDay);
  const taken = new Set(chosen.map((line) => line.unitNumber));
  return {
    amountCents: inputs.amountCents,
    months,
    spentCents: result.costCents,
    worthwhileCents,
    gap: result.gap,
    greedyLossCents: Math.round(result.greedyLossCents),
    chosen,
    leftAlone: recommendations
      .filter((entry) => !taken.has(entry.unitNumber))
      .map((entry) => ({ unitNumber: entry.unitNumber, reason: leftReason(entry, inputs) })),
    failuresAvoided: outlook.failuresAvoided,
    failuresWithout: without.failures,
    failuresWith: outlook.failures,
    unplannedCents: unplanned(outlook),
    unplannedWithoutCents: unplanned(without),
    savingCents: wholeCents(outlook.savingCents),
    chanceOfLoss: outlook.chanceOfLoss,
    valueOfNextThousandCents: Math.round(margin.nextCents),
    valueOfLastThousandCents: Math.round(margin.lastCents),
    nextThousandCents:
      margin.neighbours && wholeCents(savedMoreBy(optionsOf(margin.neighbours.next), optionsOf(result))),
    lastThousandCents:
      margin.neighbours && wholeCents(savedMoreBy(optionsOf(result), optionsOf(margin.neighbours.last))),
    waitingMonthCents: wholeCents(waitingOf(optionsOf(result))),
    byMonth: outlook.byMonth,
    byMonthWithout: without.byMonth,
    levels: frontier.map((point, i) =>
      budgetLevel(point.budgetCents, point.result, portfolio, outlooks.plans[i + 1]!),
    ),
    tornado: planTornado(
      result.chosen.flatMap((index, u) => {
        const { judged, costs } = recommendations[u]!;
        if (index === null || judged === null) return [];
        return [{ unit: inputs.units[u]!, costs, judged, option: portfolio.options[u]![index]! }];
      }),
      coefficients,
    ),
    assumptions: countAssumptions(recommendations),
    notes: [...caseNotes(inputs, result, portfolio), ...result.notes],
    recommendations,
  };
}

function checkInputs({ amountCents, months, units }: BudgetInputs): void {
  if (!(amountCents >= 0 && Number.isFinite(amountCents)))
    throw new RangeError(`amountCents must be 0 or above, got ${amountCents}`);
  if (!(Number.isInteger(months) && months >= 1 && months <= 60))
    throw new RangeError(`months must be a whole number from 1 to 60, got ${months}`);
  const seen = new Set<string>();
  for (const { unitNumber } of units) {
    if (seen.has(unitNumber)) throw new RangeError(`unitNumber must stand once, got ${unitNumber} twice`);
    seen.add(unitNumber);
  }
}

/** Budgets shown beside the amount, each once, cents. */
function budgetsShown({ amountCents, levels, curveSteps }: BudgetInputs, worthwhileCents: number): number[] {
  const budgets =
    curveSteps === undefined
      ? (levels ?? [0.5, 1, 1.5, 2]).map((level) => Math.round(level * amountCents))
      : [
          amountCents,
          ...Array.from({ length: curveSteps + 1 }, (_, step) =>
            Math.ceil((step * worthwhileCents) / curveSteps),
          ),
        ];
  return [...new Set(budgets)];
}

function simulate(
  inputs: BudgetInputs,
  recommendations: readonly UnitRecommendation[],
  portfolio: BudgetPortfolio,
  results: readonly PortfolioResult[],
): { base: PlanOutlook; plans: readonly PlanOutlook[] } {
  const value = (id: string) => coefficientValue(inputs.coefficients, id);
  const { units, place } = simulatedUnits(recommendations, inputs.asOfDay);
  const judgedMonths = units.reduce((most, unit) => Math.max(most, unit.months), inputs.months);
  const { base, plans } = simulateFleet({
    units,
    plans: results.map((result) => plannedActions(result.chosen, portfolio, place)),
    months: inputs.months,
    judgedMonths,
    draws: inputs.draws ?? 10_000,
    monthlyRate: monthlyRate(inputs.coefficients),
    failureLogSd: value('money.failure_cost_log_sd'),
    plannedLogSd: value('money.planned_cost_log_sd'),
    useLogSd: value('money.use_log_sd'),
    random: inputs.random,
  });
  return { base: planOutlook(base, base), plans: plans.map((plan) => planOutlook(base, plan)) };
}

function unplanned(outlook: PlanOutlook): { mid: number; p90: number } {
  return { mid: Math.round(outlook.unplannedCents.mid), p90: Math.round(outlook.unplannedP90Cents) };
}

function chosenLines(
  result: PortfolioResult,
  portfolio: BudgetPortfolio,
  recommendations: readonly UnitRecommendation[],
  asOfDay: number,
): BudgetLine[] {
  return result.chosen.flatMap((index, u): BudgetLine[] => {
    if (index === null) return [];
    const option = portfolio.options[u]![index]!;
    const entry = recommendations[u]!;
    return [
      {
        unitNumber: entry.unitNumber,
        action: option.action,
        words: option.words,
        on: isoFromDay(asOfDay + Math.round(option.month * daysPerMonth)),
        costCents: option.costCents,
        labourCents: Math.min(option.costCents, Math.round(option.hours * entry.costs.labourCentsPerHour)),
        downtimeCents: Math.round(option.otherCents),
        hours: option.hours,
        avoidedCents: wholeCents(option.avoidedCents),
        netCents: Math.round(option.netCents),
        waitingMonthCents: wholeCents(option.waitingMonthCents),
      },
    ];
  });
}

function leftReason(entry: UnitRecommendation, inputs: BudgetInputs): string {
  const listed = inputs.mustNot?.filter((not) => not.unitNumber === entry.unitNumber) ?? [];
  if (listed.some(({ action }) => action === undefined)) return 'on the list of units to leave alone';
  if (entry.action !== 'run' && listed.some(({ action }) => action === entry.action))
    return `${entry.words}: on the list of what may not be done`;
  if (entry.action === 'run') return entry.reasons.join('; ');
  const cost = entry.judged?.options.find((option) => option.action === entry.action)?.costCents ?? 0;
  return `the money or the hours go further elsewhere: ${entry.words} would take ${moneyWords(cost, inputs.currency)} and save ${moneyWords(entry.netCents, inputs.currency)}`;
}

function budgetLevel(
  budgetCents: number,
  result: PortfolioResult,
  portfolio: BudgetPortfolio,
  outlook: PlanOutlook,
): BudgetLevel {
  return {
    budgetCents,
    spentCents: result.costCents,
    lines: result.chosen.filter((index) => index !== null).length,
    failuresAvoided: outlook.failuresAvoided,
    avoidedCents: Math.round(
      result.chosen.reduce<number>(
        (sum, index, u) => sum + (index === null ? 0 : portfolio.options[u]![index]!.avoidedCents.mid),
        0,
      ),
    ),
    chanceOfLoss: outlook.chanceOfLoss,
    unplannedP90Cents: Math.round(outlook.unplannedP90Cents),
  };
}

function countAssumptions(recommendations: readonly UnitRecommendation[]) {
  const counts = new Map<string, number>();
  for (const entry of recommendations)
    for (const words of entry.assumptions) counts.set(words, (counts.get(words) ?? 0) + 1);
  return [...counts].map(([words, units]) => ({ words, units }));
}

function caseNotes(inputs: BudgetInputs, result: PortfolioResult, portfolio: BudgetPortfolio): string[] {
  const notes: string[] = [];
  const rate = coefficientValue(inputs.coefficients, 'money.discount_rate');
  if (rate < 0) notes.push(`a discount rate below 0 (${rate}) is taken as 0`);
  const worthwhile = portfolio.options.filter((options) => options.length > 0).length;
  const taken = result.chosen.filter((index) => index !== null).length;
  if (inputs.units.length === 0) notes.push('there are no units to plan for');
  else if (worthwhile === 0) notes.push('nothing is expected to save more than it costs');
  else if (inputs.amountCents === 0) notes.push('the budget is 0: everything is run');
  else if (taken === worthwhile && result.costCents < inputs.amountCents)
    notes.push(
      `all that is worth doing fits; ${moneyWords(inputs.amountCents - result.costCents, inputs.currency)} is not needed`,
    );
  if (result.overBudgetCents > 0)
    notes.push(
      `what must be done is ${moneyWords(result.overBudgetCents, inputs.currency)} above the limits`,
    );
  return notes;
}
