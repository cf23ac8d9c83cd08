import { gammaln } from 'simple-statistics';
import { incompleteGamma } from './incompleteGamma.ts';
import { normalQuantile } from './normal.ts';

/**
 * Quantile of the gamma distribution with unit rate: Wilson–Hilferty start, Newton steps kept inside a bracket.
 * @param shape above 0
 * @param probability 0 up to, not including, 1
 * @returns x with incompleteGamma(shape, x) = probability; gammaQuantile(1, 0.5) → 0.6931471805599453
 * @throws RangeError when shape is not above 0 or probability lies outside [0, 1)
 */
export function gammaQuantile(shape: number, probability: number): number {
  if (!(shape > 0)) throw new RangeError(`shape must be above 0, got ${shape}`);
  if (!(probability >= 0 && probability < 1))
    throw new RangeError(`probability must lie from 0 to below 1, got ${probability}`);
  if (probability === 0) return 0;
  const logGamma = gammaln(shape);
  const spread = 1 / (9 * shape);
  const cubeRoot = 1 - spread + normalQuantile(probability) * Math.sqrt(spread);
  const smallStart = Math.exp((Math.log(probability) + Math.log(shape) + logGamma) / shape);
  let x = cubeRoot > 0.3 ? shape * cubeRoot ** 3 : smallStart;
  let low = 0;
  let high = Infinity;
  for (let step = 0; step < 200; step++) {
    const miss = incompleteGamma(shape, x) - probability;
    if (miss > 0) high = Math.min(high, x);
    else low = Math.max(low, x);
    const density = Math.exp((shape - 1) * Math.log(x) - x - logGamma);
    let next = density > 0 ? x - miss / density : NaN;
    if (!(next > low && next < high)) next = high === Infinity ? 2 * x : 0.5 * (low + high);
    if (next === 0 || Math.abs(next - x) <= 1e-15 * x) return next;
    x = next;
  }
  return x;
}
