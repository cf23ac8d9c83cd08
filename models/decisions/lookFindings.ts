import type { LookAction } from './looks.ts';

/** What a look may find and what follows; lists by state are in the order of `lookStates`. */
export interface LookFindings {
  /** chance of each state before the look; sum 1 */
  readonly prior: readonly number[];
  /** chance of failing over the judged months in each state when run on, 0..1 */
  readonly failsIfRun: readonly number[];
  /** chance of the first finding in each state; the second is the rest */
  readonly firstIfState: readonly number[];
  /** first and second finding */
  readonly outcomes: readonly LookOutcome[];
}

/** What follows a finding. */
export interface LookOutcome {
  readonly action: LookAction;
  /** cash, the look included, cents */
  readonly cents: number;
  /** downtime, cents */
  readonly otherCents: number;
  /** chance of failing in each state after the action, 0..1 */
  readonly fails: readonly number[];
}
