import type { Coefficients } from '../../schema/coefficient.ts';

/** A Gaussian prior, on a log scale unless said otherwise. */
export interface LogPrior {
  readonly mean: number;
  readonly sd: number;
}

/** Everything the fleet's failure model believes before it has seen a failure. */
export interface FleetPriors {
  /** log shape on a clock that is itself estimated, and on a measured one */
  readonly shapeEstimatedClock: LogPrior;
  readonly shapeMeasuredClock: LogPrior;
  /** log of the characteristic life of a timing set, km and engine hours */
  readonly lifeKm: LogPrior;
  readonly lifeHours: LogPrior;
  /** log of the wear of an idle hour over that of a driving hour */
  readonly idleWeight: LogPrior;
  /** log of the spread (sd of log scale) between engine families */
  readonly familySpread: LogPrior;
  /** km/h that turn distance into hours where no unit of the fleet has both */
  readonly typicalSpeedKmH: number;
  /** share of the way each log hazard is pulled to the base rate, 0..1 (not its log) */
  readonly baseRatePull: LogPrior;
  /** log of how far whole years lie from what is expected of them beyond chance, as coefficient of variation */
  readonly yearSpread: LogPrior;
  /** failures' worth of trust in the level of the fit before it is matched to what was seen */
  readonly levelTrustFailures: number;
  /** years after which what was seen counts 1/e in that matching */
  readonly levelYears: number;
  /**
   * factor on how far draws lie from the mode: no model's physics is the fleet's, and ranges that reckon with the model alone come out too narrow; 1
   * where the catalog has none
   */
  readonly rangeWidening: number;
}

/** Ids under which the catalog holds these values, with the values that common practice suggests. */
export const fleetPriorIds = {
  shapeEstimatedMedian: 'failure.shape_estimated_clock',
  shapeEstimatedLogSd: 'failure.shape_estimated_clock_log_sd',
  shapeMeasuredMedian: 'failure.shape_measured_clock',
  shapeMeasuredLogSd: 'failure.shape_measured_clock_log_sd',
  lifeKm: 'failure.life_km',
  lifeHours: 'failure.life_hours',
  lifeLogSd: 'failure.life_log_sd',
  idleWeight: 'failure.idle_weight',
  idleWeightLogSd: 'failure.idle_weight_log_sd',
  familySpread: 'failure.family_spread',
  familySpreadLogSd: 'failure.family_spread_log_sd',
  typicalSpeedKmH: 'failure.typical_speed_km_h',
  baseRatePull: 'failure.base_rate_pull',
  baseRatePullSd: 'failure.base_rate_pull_sd',
  yearSpread: 'failure.year_spread',
  yearSpreadLogSd: 'failure.year_spread_log_sd',
  levelTrustFailures: 'failure.level_trust_failures',
  levelYears: 'failure.level_years',
  rangeWidening: 'failure.range_widening',
} as const;

/**
 * Priors from the catalog's values.
 * @throws RangeError naming the id of a value that is missing or not a number above 0
 */
export function fleetPriorsFrom(coefficients: Coefficients): FleetPriors {
  const value = (id: string): number => {
    const found = coefficients[id];
    if (!(found > 0 && found < Infinity))
      throw new RangeError(`coefficient ${id} must be above 0, got ${found}`);
    return found;
  };
  const logPrior = (median: string, logSd: string): LogPrior => ({
    mean: Math.log(value(median)),
    sd: value(logSd),
  });
  const ids = fleetPriorIds;
  return {
    shapeEstimatedClock: logPrior(ids.shapeEstimatedMedian, ids.shapeEstimatedLogSd),
    shapeMeasuredClock: logPrior(ids.shapeMeasuredMedian, ids.shapeMeasuredLogSd),
    lifeKm: logPrior(ids.lifeKm, ids.lifeLogSd),
    lifeHours: logPrior(ids.lifeHours, ids.lifeLogSd),
    idleWeight: logPrior(ids.idleWeight, ids.idleWeightLogSd),
    familySpread: logPrior(ids.familySpread, ids.familySpreadLogSd),
    typicalSpeedKmH: value(ids.typicalSpeedKmH),
    baseRatePull: { mean: value(ids.baseRatePull), sd: value(ids.baseRatePullSd) },
    yearSpread: logPrior(ids.yearSpread, ids.yearSpreadLogSd),
    levelTrustFailures: value(ids.levelTrustFailures),
    levelYears: value(ids.levelYears),
    rangeWidening: ids.rangeWidening in coefficients ? value(ids.rangeWidening) : 1,
  };
}
