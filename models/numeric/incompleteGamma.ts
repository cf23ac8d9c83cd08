import { gammaln } from 'simple-statistics';

/**
 * Regularised lower incomplete gamma function P(a, x): the gamma distribution function with unit rate. Series below
 * a + 1, continued fraction above (Abramowitz & Stegun 6.5.29 and 6.5.31).
 * @param shape a, above 0
 * @param x 0 or above
 * @returns probability 0..1; incompleteGamma(3, 2.5) → 0.4561868841166702
 * @throws RangeError when shape is not above 0 or x is below 0
 */
export function incompleteGamma(shape: number, x: number): number {
  if (!(shape > 0)) throw new RangeError(`shape must be above 0, got ${shape}`);
  if (!(x >= 0)) throw new RangeError(`x must be 0 or above, got ${x}`);
  if (x === 0) return 0;
  if (x === Infinity) return 1;
  const front = Math.exp(shape * Math.log(x) - x - gammaln(shape));
  return x < shape + 1 ? front * lowerSeries(shape, x) : 1 - front * upperFraction(shape, x);
}

function lowerSeries(shape: number, x: number): number {
  let term = 1 / shape;
  let sum = term;
  for (let step = 1; step < 100_000 && term > sum * 1e-17; step++) {
    term *= x / (shape + step);
    sum += term;
  }
  return sum;
}

/** Lentz's method; tiny keeps a vanishing denominator from dividing by zero. */
function upperFraction(shape: number, x: number): number {
  const tiny = 1e-300;
  let b = x + 1 - shape;
  let c = 1 / tiny;
  let d = 1 / (b || tiny);
  let value = d;
  for (let step = 1; step < 100_000; step++) {
    const a = -step * (step - shape);
    b += 2;
    d = 1 / (a * d + b || tiny);
    c = b + a / c || tiny;
    const factor = c * d;
    value *= factor;
    if (Math.abs(factor - 1) < 1e-16) break;
  }
  return value;
}
