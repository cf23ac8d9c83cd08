/** Generalised Pareto distribution fitted to values above 0. */
export interface ParetoTail {
  /** k; below 0.5 the mean of the tail's squares is finite, above 1 even the mean is not */
  readonly shape: number;
  readonly scale: number;
}

/**
 * Shape of the generalised Pareto distribution by Zhang & Stephens' posterior mean (Technometrics 51, 2009), pulled towards 0.5 as
 * if by ten more observations (Vehtari, Simpson, Gelman, Yao & Gabry, Pareto smoothed importance sampling, 2015).
 * @param exceedances ascending, above 0, at least 5
 * @throws RangeError when there are fewer than 5 or the largest is not above 0
 */
export function fitParetoTail(exceedances: readonly number[]): ParetoTail {
  const count = exceedances.length;
  const largest = exceedances[count - 1];
  if (!(count >= 5 && largest > 0))
    throw new RangeError(`exceedances must be at least 5 and reach above 0, got ${count} up to ${largest}`);
  const quarter = Math.max(exceedances[Math.floor(count / 4 + 0.5) - 1], 1e-12 * largest);
  const trials = 30 + Math.floor(Math.sqrt(count));
  const theta = Array.from(
    { length: trials },
    (_, j) => 1 / largest + (1 - Math.sqrt(trials / (j + 0.5))) / (3 * quarter),
  );
  const shapeAt = (b: number) => exceedances.reduce((sum, x) => sum + Math.log1p(-b * x), 0) / count;
  const likelihood = theta.map((b) => {
    const k = shapeAt(b);
    return count * (Math.log(-b / k) - k - 1);
  });
  const most = Math.max(...likelihood);
  const weights = likelihood.map((l) => Math.exp(l - most));
  const total = weights.reduce((a, b) => a + b, 0);
  const b = weights.reduce((sum, weight, j) => sum + (weight * theta[j]) / total, 0);
  const k = shapeAt(b);
  const prior = 10;
  return { shape: (k * count + 0.5 * prior) / (count + prior), scale: -k / b };
}

/** Quantile of the tail, probability from 0 to below 1. */
export function paretoQuantile({ shape, scale }: ParetoTail, probability: number): number {
  const logSurvival = Math.log1p(-probability);
  return Math.abs(shape) < 1e-12 ? -scale * logSurvival : (scale * Math.expm1(-shape * logSurvival)) / shape;
}
