/**
 * Lifetimes as they were recorded, one column each. An exact failure has `high` equal to `low`; a unit still running has
 * `high` = Infinity; a failure found at an inspection lies in (`low`, `high`], with `low` = `entry` (or 0) when it was
 * already there at the first look.
 */
export interface LifetimeRows {
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** age at which the unit came under observation (delayed entry), 0 when watched from new */
  readonly entry?: Float64Array;
  /** how many like units the row stands for, or a chance 0..1 */
  readonly weight?: Float64Array;
  /** row-major, `covariateCount` values a row */
  readonly covariates?: Float64Array;
  readonly covariateCount?: number;
}

/**
 * Builds rows from exact and right-censored lifetimes.
 * @param time above 0 @param failed true where the unit failed at that time, false where it was still running
 */
export function rowsFromTimes(
  time: readonly number[],
  failed: readonly boolean[],
  extra: Omit<LifetimeRows, 'low' | 'high'> = {},
): LifetimeRows {
  return {
    low: Float64Array.from(time),
    high: Float64Array.from(time, (t, i) => (failed[i] ? t : Infinity)),
    ...extra,
  };
}

/** Throws a RangeError that names the first row and field that can't be a lifetime. */
export function checkRows(rows: LifetimeRows): void {
  const { low, high, entry, weight, covariates, covariateCount = 0 } = rows;
  const count = low.length;
  const lengths = [high.length, entry?.length ?? count, weight?.length ?? count];
  if (lengths.some((length) => length !== count))
    throw new RangeError(`rows: columns must have ${count} values each, got ${lengths.join(', ')}`);
  if ((covariates?.length ?? 0) !== count * covariateCount)
    throw new RangeError(
      `rows: covariates must have ${count * covariateCount} values, got ${covariates?.length ?? 0}`,
    );
  for (let i = 0; i < count; i++) {
    const from = entry ? entry[i] : 0;
    if (!(from >= 0 && from < Infinity))
      throw new RangeError(`row ${i}: entry must be 0 or above, got ${from}`);
    if (!(low[i] >= from && low[i] < Infinity))
      throw new RangeError(`row ${i}: low must not be below entry ${from}, got ${low[i]}`);
    if (!(high[i] >= low[i]))
      throw new RangeError(`row ${i}: high must not be below low ${low[i]}, got ${high[i]}`);
    if (high[i] === 0) throw new RangeError(`row ${i}: high must be above 0, got 0`);
    if (weight && !(weight[i] >= 0 && weight[i] < Infinity))
      throw new RangeError(`row ${i}: weight must be 0 or above, got ${weight[i]}`);
  }
  for (let i = 0; i < count * covariateCount; i++)
    if (!Number.isFinite(covariates![i]))
      throw new RangeError(
        `row ${Math.floor(i / covariateCount)}: covariates must be finite, got ${covariates![i]}`,
      );
}

/** Weighted number of failures in the rows, inspected ones included. */
export function failuresIn(rows: LifetimeRows): number {
  let sum = 0;
  for (let i = 0; i < rows.low.length; i++)
    if (rows.high[i] < Infinity) sum += rows.weight ? rows.weight[i] : 1;
  return sum;
}
