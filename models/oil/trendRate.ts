/** A measured value at a distance on the oil. */
export interface TrendPoint {
  /** km on the oil, or hours: any measure of use */
  readonly use: number;
  readonly value: number;
}

/** How fast a value changes. */
export interface TrendRate {
  /** between the last two points, per unit of use */
  readonly latest: number;
  /** straight line through all points, per unit of use */
  readonly mean: number;
  /** use still left until the limit at the faster of the two rates; null: moving away from it or no limit */
  readonly useToLimit: number | null;
}

/**
 * Trend of a measurand per distance in the manner of ASTM D7669: rate between the last two samples and the slope of
 * the line through all of one charge.
 * @param points of one oil charge (or of rates across charges), at least two with different use
 * @param limit in the unit of the values; null: none
 * @returns rates per unit of use; (2000, 10), (6000, 30) → 0.005 per km both ways, limit 50 → 4000 km left
 * Throws when the points are fewer than two or all at one use.
 * Source: ASTM D7669 (scope); least squares.
 */
export function trendRate(points: readonly TrendPoint[], limit: number | null): TrendRate {
  const sorted = [...points].sort((a, b) => a.use - b.use);
  const last = sorted[sorted.length - 1];
  const before = sorted.findLast((point) => point.use < (last?.use ?? 0));
  if (last === undefined || before === undefined)
    throw new Error(`points must hold two with different use, got ${points.length}`);
  const n = sorted.length;
  const useMean = sorted.reduce((sum, point) => sum + point.use, 0) / n;
  const valueMean = sorted.reduce((sum, point) => sum + point.value, 0) / n;
  let cross = 0;
  let square = 0;
  for (const point of sorted) {
    cross += (point.use - useMean) * (point.value - valueMean);
    square += (point.use - useMean) ** 2;
  }
  const latest = (last.value - before.value) / (last.use - before.use);
  const slope = cross / square;
  if (limit === null) return { latest, mean: slope, useToLimit: null };
  const away = limit - last.value;
  const toward = away >= 0 ? Math.max(latest, slope) : Math.min(latest, slope);
  return { latest, mean: slope, useToLimit: away === 0 ? 0 : toward * away > 0 ? away / toward : null };
}
