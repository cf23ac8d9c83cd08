import { rangeOf, sortedQuantile, type Range } from './range.ts';
import type { SimulatedPlan } from './simulationTypes.ts';

/** What a plan is expected to do, against running everything. */
export interface PlanOutlook {
  /** failures within the reported months under the plan */
  readonly failures: Range;
  /** failures that running everything has and the plan has not */
  readonly failuresAvoided: Range;
  readonly plannedCents: Range;
  readonly unplannedCents: Range;
  /** 90 % point of the cost of failures within the reported months, cents */
  readonly unplannedP90Cents: number;
  /** what the plan saves over the judged months, present value, cents */
  readonly savingCents: Range;
  /** chance that the plan costs more than running everything over the judged months, 0..1 */
  readonly chanceOfLoss: number;
  /** mean cash planned, and failure cost with its 90 % point, by reported month, cents */
  readonly byMonth: readonly {
    readonly plannedCents: number;
    readonly unplannedCents: number;
    readonly unplannedP90Cents: number;
  }[];
}

/**
 * Sums up simulated draws of a plan against the base under the same draws.
 * @param base running everything
 * @param plan from the same simulation
 * @returns means with 80 % ranges, cents and failures; chances 0..1
 * @throws RangeError when the two hold different numbers of draws
 * Source: empirical quantiles; common practice.
 */
export function planOutlook(base: SimulatedPlan, plan: SimulatedPlan): PlanOutlook {
  const draws = plan.failures.length;
  if (base.failures.length !== draws)
    throw new RangeError(`base and plan must have the same draws, got ${base.failures.length} and ${draws}`);
  const saving = plan.balance.map((cents, draw) => base.balance[draw]! - cents);
  const unplanned = plan.unplanned.toSorted();
  const months = plan.plannedByMonth.length;
  const column = new Float64Array(draws);
  const byMonth = Array.from({ length: months }, (_, month) => {
    for (let draw = 0; draw < draws; draw++) column[draw] = plan.unplannedByMonth[draw * months + month]!;
    column.sort();
    return {
      plannedCents: Math.round(plan.plannedByMonth[month]!),
      unplannedCents: Math.round(column.reduce((a, b) => a + b, 0) / draws),
      unplannedP90Cents: Math.round(sortedQuantile(column, 0.9)),
    };
  });
  return {
    failures: rangeOf(plan.failures),
    failuresAvoided: rangeOf(plan.failures.map((count, draw) => base.failures[draw]! - count)),
    plannedCents: rangeOf(plan.planned),
    unplannedCents: rangeOf(unplanned),
    unplannedP90Cents: sortedQuantile(unplanned, 0.9),
    savingCents: rangeOf(saving),
    // a tie to the last cent is no loss
    chanceOfLoss: saving.reduce((count, cents) => count + (cents < -0.5 ? 1 : 0), 0) / draws,
    byMonth,
  };
}
