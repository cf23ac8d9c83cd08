/** Mean of a count distribution. */
export function countMean(pmf: ArrayLike<number>): number {
  let mean = 0;
  for (let k = 0; k < pmf.length; k++) mean += k * pmf[k];
  return mean;
}

/** Variance of a count distribution. */
export function countVariance(pmf: ArrayLike<number>): number {
  const mean = countMean(pmf);
  let variance = 0;
  for (let k = 0; k < pmf.length; k++) variance += (k - mean) ** 2 * pmf[k];
  return variance;
}

/**
 * Smallest count whose cumulative chance reaches a level.
 * @param level above 0, up to 1
 */
export function countQuantile(pmf: ArrayLike<number>, level: number): number {
  if (!(level > 0 && level <= 1)) throw new RangeError(`level must lie above 0 and up to 1, got ${level}`);
  let sum = 0;
  for (let k = 0; k < pmf.length; k++) {
    sum += pmf[k];
    // rounding in the sum must not push the quantile up by one
    if (sum >= level - 1e-12) return k;
  }
  return pmf.length - 1;
}

/**
 * Mean of the worst share of outcomes: conditional value at risk of a count (Rockafellar & Uryasev, J. Banking & Finance 26,
 * 2002, which splits the mass that stands on the quantile).
 * @param level 0.9 for the mean of the worst tenth, from 0 to below 1
 */
export function countTailMean(pmf: ArrayLike<number>, level: number): number {
  if (!(level >= 0 && level < 1)) throw new RangeError(`level must lie from 0 to below 1, got ${level}`);
  let left = level;
  let sum = 0;
  for (let k = 0; k < pmf.length; k++) {
    const skipped = Math.min(left, pmf[k]);
    left -= skipped;
    sum += k * (pmf[k] - skipped);
  }
  return sum / (1 - level);
}
