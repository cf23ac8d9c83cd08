import { fitParetoTail, paretoQuantile } from './paretoShape.ts';

export interface SmoothedWeights {
  /** adding up to 1 */
  readonly weights: Float64Array;
  /** k of the weights' upper tail: below 0.7 the weighted draws can be trusted, above they can't */
  readonly paretoK: number;
  /** number of equal draws that would say as much */
  readonly effectiveCount: number;
}

/**
 * Pareto smoothed importance weights (Vehtari, Simpson, Gelman, Yao & Gabry 2015): the largest fifth, at most 3 √n, is replaced by
 * quantiles of the generalised Pareto distribution fitted to it, and no weight stays above the largest raw one.
 * @param logWeights unnormalised; −Infinity for a draw outside the domain
 * @throws RangeError when no weight is finite
 */
export function smoothWeights(logWeights: ArrayLike<number>): SmoothedWeights {
  const count = logWeights.length;
  let most = -Infinity;
  for (let i = 0; i < count; i++) most = Math.max(most, logWeights[i]);
  if (!Number.isFinite(most))
    throw new RangeError('smoothWeights: at least one weight must be finite and above 0');
  const weights = Float64Array.from(logWeights, (w) => Math.exp(w - most) || 0);
  const order = Array.from({ length: count }, (_, i) => i).sort((a, b) => weights[a] - weights[b]);
  const tail = Math.min(Math.floor(count / 5), Math.ceil(3 * Math.sqrt(count)));
  let paretoK = Infinity;
  if (tail >= 5) {
    const cut = weights[order[count - tail - 1]];
    const exceedances = order.slice(count - tail).map((i) => weights[i] - cut);
    if (exceedances[tail - 1] > 1e-12) {
      const fitted = fitParetoTail(exceedances.map((x) => Math.max(x, 1e-15)));
      paretoK = fitted.shape;
      for (let z = 0; z < tail; z++)
        weights[order[count - tail + z]] = Math.min(1, cut + paretoQuantile(fitted, (z + 0.5) / tail));
    } else paretoK = 0; // all weights alike: the proposal is the posterior
  }
  const total = weights.reduce((a, b) => a + b, 0);
  let squares = 0;
  for (let i = 0; i < count; i++) {
    weights[i] /= total;
    squares += weights[i] * weights[i];
  }
  return { weights, paretoK, effectiveCount: 1 / squares };
}

/** Systematic resampling: `count` indices drawn in proportion to the weights, with the least scatter in how often each comes. */
export function resampleIndices(weights: Float64Array, count: number, random: () => number): Int32Array {
  const picked = new Int32Array(count);
  const start = random();
  let cumulative = weights[0];
  for (let k = 0, i = 0; k < count; k++) {
    while (cumulative * count < k + start && i < weights.length - 1) cumulative += weights[++i];
    picked[k] = i;
  }
  return picked;
}
