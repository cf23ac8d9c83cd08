import type { Episode, Segment } from './episode.ts';
import type { Ranged } from './fleetFit.ts';

/** What is asked of the model for one unit: its set so far, and the use ahead. */
export interface ForecastRequest {
  readonly episode: Episode;
  /** in order of time, up to the horizon or to the day the unit is known to leave */
  readonly future: readonly Segment[];
  /** error of the use ahead on a log scale */
  readonly useLogSd: number;
}

export interface Contribution {
  readonly cause: string;
  readonly logHazard: number;
}

/** `low` and `high` are the 80 % range, from what is not known of the parameters and of the use ahead. */
export interface UnitForecast {
  readonly unitNumber: string;
  readonly family: string;
  readonly horizonDays: number;
  /** chance of failing within the horizon, with planned renewals made as often as up to today */
  readonly probability: number;
  readonly low: number;
  readonly high: number;
  /** the same if the unit is run through the horizon without a planned renewal */
  readonly ifNotRenewed: Ranged;
  /** share of what is known of this unit's hazard that comes from the fleet's own records, 0..1 */
  readonly ownDataShare: number;
  /** log of the hazard over the horizon at the fleet's base rate */
  readonly baseLogHazard: number;
  /** add up to ln(−ln(1 − probability)) − baseLogHazard */
  readonly contributions: readonly Contribution[];
}

/** Number of failures in the fleet within the horizon, parameters' doubt shared by all units. */
export interface CountForecast {
  /** chance of exactly k failures */
  readonly pmf: Float64Array;
  readonly mean: number;
  readonly low: number;
  readonly median: number;
  readonly high: number;
}

export interface FleetForecast {
  readonly units: readonly UnitForecast[];
  readonly count: CountForecast;
  readonly countIfNotRenewed: CountForecast;
}
