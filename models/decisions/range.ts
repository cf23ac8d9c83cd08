/** A value with its 80 % range. */
export interface Range {
  /** 10 % point, or the mean where that is less */
  readonly low: number;
  /** mean */
  readonly mid: number;
  /** 90 % point, or the mean where that is more (rare events) */
  readonly high: number;
}

/**
 * Quantile of sorted values, linear between them (type 7 of Hyndman & Fan, American Statistician 50, 1996).
 * @param sorted rising values, one or more
 * @param share 0..1
 * @throws RangeError when there are no values
 */
export function sortedQuantile(sorted: ArrayLike<number>, share: number): number {
  if (sorted.length === 0) throw new RangeError('sorted must hold at least one value, got 0');
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(sorted.length - 1, below + 1);
  return sorted[below]! + (place - below) * (sorted[above]! - sorted[below]!);
}

/**
 * Mean and 80 % range of draws, widened to the mean where a long tail puts that outside.
 * @param values one or more
 * @returns 1, 2, 3 → low 1.2, mid 2, high 2.8
 * @throws RangeError when there are no values
 */
export function rangeOf(values: ArrayLike<number>): Range {
  const sorted = Float64Array.from(values).sort();
  let sum = 0;
  for (const value of sorted) sum += value;
  const mid = sum / sorted.length;
  return {
    low: Math.min(mid, sortedQuantile(sorted, 0.1)),
    mid,
    high: Math.max(mid, sortedQuantile(sorted, 0.9)),
  };
}

/** A range in whole cents. */
export function wholeCents(range: Range): Range {
  return { low: Math.round(range.low), mid: Math.round(range.mid), high: Math.round(range.high) };
}
