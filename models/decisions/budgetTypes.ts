import type { Coefficients } from '../schema/coefficient.ts';
import type { IsoDate } from '../schema/day.ts';
import type { MilpSolver } from './milpSolver.ts';
import type { MoneyUnit } from './moneyUnit.ts';
import type { PortfolioEffort } from './portfolioItems.ts';
import type { Random } from '../numeric/random.ts';
import type { Range } from './range.ts';
import type { PlanOutlook } from './simulationSummary.ts';
import type { TornadoBar } from './tornado.ts';
import type { UnitRecommendation } from './unitRecommendation.ts';

/** What a budget case is made from. */
export interface BudgetInputs {
  /** days since 1970-01-01 */
  readonly asOfDay: number;
  /** money for the whole time, whole cents, 0 or more */
  readonly amountCents: number;
  /** ISO 4217, for the words */
  readonly currency: string;
  /** 1 to 60 */
  readonly months: number;
  readonly units: readonly MoneyUnit[];
  /** units on which something must be done, or the action that must be; left out: none */
  readonly mustDo?: readonly { readonly unitNumber: string; readonly action?: string }[];
  /** units on which nothing, or not this action, may be done; left out: none */
  readonly mustNot?: readonly { readonly unitNumber: string; readonly action?: string }[];
  /** shop hours by year of the plan; left out: no limit */
  readonly hoursByYear?: readonly number[];
  /** money by year of the plan, cents; left out: the amount may fall in any year */
  readonly centsByYear?: readonly number[];
  readonly coefficients: Coefficients;
  readonly solver: MilpSolver;
  readonly random: Random;
  /** simulated draws; left out: 10 000 */
  readonly draws?: number;
  /** left out: a gap of 0.05 %, 10 s a solver run */
  readonly effort?: PortfolioEffort;
  /** budgets shown beside the amount, as multiples of it; left out: 0.5, 1, 1.5, 2 */
  readonly levels?: readonly number[];
  /** instead of levels: so many even steps from nothing to all that is worth doing, and the amount itself */
  readonly curveSteps?: number;
  /** told how many of the four steps are done: units judged, work chosen, other budgets, futures */
  readonly progress?: (done: number) => void;
}

/** One chosen piece of work. */
export interface BudgetLine {
  readonly unitNumber: string;
  readonly action: 'renew' | 'look' | 'clean';
  readonly words: string;
  readonly on: IsoDate;
  readonly costCents: number;
  /** of that: labour; the rest is parts */
  readonly labourCents: number;
  /** downtime of the work, beside the cost */
  readonly downtimeCents: number;
  readonly hours: number;
  /** failures avoided over the judged months, present value, the line's own cost not taken off */
  readonly avoidedCents: Range;
  readonly netCents: number;
  readonly waitingMonthCents: Range | null;
}

/** One budget level, for a budget holder. */
export interface BudgetLevel {
  readonly budgetCents: number;
  readonly spentCents: number;
  readonly lines: number;
  readonly failuresAvoided: Range;
  readonly avoidedCents: number;
  readonly chanceOfLoss: number;
  readonly unplannedP90Cents: number;
}

/** The budget case; money in whole cents, ranges 80 %. */
export interface BudgetCase {
  readonly amountCents: number;
  readonly months: number;
  /** what the plan takes of the amount */
  readonly spentCents: number;
  /** what all that is worth doing would take */
  readonly worthwhileCents: number;
  readonly gap: number;
  readonly greedyLossCents: number;
  readonly chosen: readonly BudgetLine[];
  readonly leftAlone: readonly { readonly unitNumber: string; readonly reason: string }[];
  readonly failuresAvoided: Range;
  /** failures within the months when everything is run, and under the plan */
  readonly failuresWithout: Range;
  readonly failuresWith: Range;
  readonly unplannedCents: { readonly mid: number; readonly p90: number };
  readonly unplannedWithoutCents: { readonly mid: number; readonly p90: number };
  /** expected saving of the plan over the judged months, its cost taken off */
  readonly savingCents: Range;
  readonly chanceOfLoss: number;
  readonly valueOfNextThousandCents: number;
  readonly valueOfLastThousandCents: number;
  /** both with their ranges; null where the best plan for a thousand more or less is not proved */
  readonly nextThousandCents: Range | null;
  readonly lastThousandCents: Range | null;
  /** what delaying the whole plan by a month is expected to cost */
  readonly waitingMonthCents: Range;
  readonly byMonth: PlanOutlook['byMonth'];
  /** the same when everything is run */
  readonly byMonthWithout: PlanOutlook['byMonth'];
  readonly levels: readonly BudgetLevel[];
  readonly tornado: readonly TornadoBar[];
  /** costs filled from defaults, with how many units each was filled for */
  readonly assumptions: readonly { readonly words: string; readonly units: number }[];
  readonly notes: readonly string[];
  readonly recommendations: readonly UnitRecommendation[];
}
