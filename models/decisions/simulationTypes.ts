import type { LookFindings } from './lookFindings.ts';
import type { Random } from '../numeric/random.ts';
import type { Risk } from './risk.ts';

/** One unit of the fleet as it is simulated. */
export interface SimulatedUnit {
  readonly risk: Risk;
  /** months in which it can fail: to disposal, at most the judged months */
  readonly months: number;
  /** mean cost of a failure, downtime included, cents */
  readonly failureCents: number;
  /** months from today in which someone else pays, and what is left to pay then, cents */
  readonly coveredMonths: number;
  readonly coveredCents: number;
}

/** Something planned on a unit: at a month, at a mean cost, with what it does to the hazard from then on. */
export interface PlannedAction {
  readonly unit: number;
  readonly month: number;
  /** cash, cents */
  readonly cents: number;
  /** downtime and the like, counted in the balance but not in the spend, cents */
  readonly otherCents: number;
  readonly effect: 'renew' | number;
  /** a look: what it finds is drawn, and cost and effect are those of the finding; a unit has one look in all plans */
  readonly findings?: LookFindings;
}

export interface SimulationInputs {
  readonly units: readonly SimulatedUnit[];
  /** plans compared under the same draws; running everything is always the base, not listed here */
  readonly plans: readonly (readonly PlannedAction[])[];
  /** months reported */
  readonly months: number;
  /** months over which gain and loss are balanced, at least `months` */
  readonly judgedMonths: number;
  readonly draws: number;
  /** discount a month for the balance, 0 or more */
  readonly monthlyRate: number;
  /** log-sd of a failure's cost, of a planned cost, and of the fleet's use against today's */
  readonly failureLogSd: number;
  readonly plannedLogSd: number;
  readonly useLogSd: number;
  readonly random: Random;
}

/** What happened in each draw under one plan. */
export interface SimulatedPlan {
  /** failures within the reported months, by draw */
  readonly failures: Float64Array;
  /** planned cash within the reported months, cents, by draw */
  readonly planned: Float64Array;
  /** cost of failures within the reported months, cents, by draw */
  readonly unplanned: Float64Array;
  /** present value of everything over the judged months, cents, by draw */
  readonly balance: Float64Array;
  /** mean planned cash by reported month, cents */
  readonly plannedByMonth: Float64Array;
  /** failure cost at draw·months + month, cents */
  readonly unplannedByMonth: Float32Array;
}
