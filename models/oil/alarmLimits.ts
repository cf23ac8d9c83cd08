/** Alarm limits of one measurand in one population. */
export interface AlarmLimits {
  /** caution, alert and condemn levels */
  readonly caution: number;
  readonly alert: number;
  readonly condemn: number;
  readonly samples: number;
  /** how they came about */
  readonly basis: 'cumulative' | 'absolute';
  /** too few samples to trust: below 100 */
  readonly provisional: boolean;
}

/** The cumulative shares of the three levels, the least number of samples to start and to trust. */
export interface AlarmRule {
  readonly cautionShare: number;
  readonly alertShare: number;
  readonly condemnShare: number;
  readonly leastSamples: number;
  readonly trustedSamples: number;
}

/**
 * The value at a cumulative share by nearest rank: x at place ceil(share · n) of the sorted values.
 * @param share above 0, up to 1
 * @returns for 1..100, share 0.9 → 90
 * Throws on no values or a share outside (0, 1].
 * Source: ASTM D7720, cumulative distribution; nearest rank.
 */
export function nearestRank(values: readonly number[], share: number): number {
  if (values.length === 0) throw new Error('values must not be empty, got none');
  if (!(share > 0 && share <= 1)) throw new Error(`share must be above 0 and up to 1, got ${share}`);
  const sorted = [...values].sort((a, b) => a - b);
  // 1e-9 keeps 0.9 · 100 = 90.00000000000001 from becoming the 91st value
  return sorted[Math.max(0, Math.ceil(share * sorted.length - 1e-9) - 1)];
}

/**
 * Alarm limits by cumulative distribution (ASTM D7720), per population: engine family, oil, band of hours.
 * @param values of the population, in one unit; wear metals best per 1000 km
 * @param absolute the absolute limits in the same unit; the result is never looser, but for a break-in population
 * @param breakIn the first two drains after engine or cover work: new parts shed and sealant bleeds, so the absolute
 * limits do not bind
 * @returns the limits; the absolute ones while there are fewer than 30 values; null when there are neither
 * Source: ASTM D7720 (scope); 90/95/98 % and n ≥ 30, 100 to trust: value from memory.
 */
export function cumulativeAlarmLimits(
  values: readonly number[],
  absolute: { readonly caution: number; readonly condemn: number } | null,
  breakIn: boolean,
  rule: AlarmRule,
): AlarmLimits | null {
  const samples = values.length;
  const provisional = samples < rule.trustedSamples;
  if (samples < rule.leastSamples)
    return absolute === null || breakIn
      ? null
      : {
          caution: absolute.caution,
          alert: (absolute.caution + absolute.condemn) / 2,
          condemn: absolute.condemn,
          samples,
          basis: 'absolute',
          provisional: true,
        };
  const most = absolute === null || breakIn ? { caution: Infinity, condemn: Infinity } : absolute;
  return {
    caution: Math.min(most.caution, nearestRank(values, rule.cautionShare)),
    alert: Math.min(most.condemn, nearestRank(values, rule.alertShare)),
    condemn: Math.min(most.condemn, nearestRank(values, rule.condemnShare)),
    samples,
    basis: 'cumulative',
    provisional,
  };
}
