import type { CallResult } from '../decisions/calls.ts';
import type { PooledDuty } from '../oil/dutyPool.ts';
import type { LearnedRates } from '../wear/learnedRates.ts';
import type { FleetAlarms } from './alarmPopulations.ts';
import type { UnitChance } from './failureEstimate.ts';

/**
 * What a fleet teaches about each of its units. Plain data (maps and typed arrays included): with it a unit can be worked
 * out by itself, from its own records, in any thread. Units are named by the id of their record.
 */
export interface FleetTaught {
  /** horizon of the chances, d */
  readonly horizonDays: number;
  readonly pooled: PooledDuty;
  /** null for a fleet without units */
  readonly rates: LearnedRates | null;
  readonly alarms: FleetAlarms;
  /** of units in service */
  readonly chances: ReadonlyMap<number, UnitChance>;
  /** shape of the failure model's Weibull */
  readonly shape: number;
  /** failures of the fleet's own that the failure model rests on, and the share of it that they make, 0..1 */
  readonly ownFailures: number;
  readonly ownDataShare: number;
}

/** The same with the calls, which rest on all units of a site. */
export interface FleetLearned extends FleetTaught {
  /** version of the models and of the fit */
  readonly modelVersion: string;
  readonly calls: ReadonlyMap<number, CallResult>;
}
