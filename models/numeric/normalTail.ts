const logRootTwoPi = 0.5 * Math.log(2 * Math.PI);

/**
 * Logarithm of the standard normal density, −z²/2 − ln √(2π).
 * @param z standard normal deviate, any number
 * @returns log density; logNormalDensity(0) → −0.9189385332046727
 */
export function logNormalDensity(z: number): number {
  return -0.5 * z * z - logRootTwoPi;
}

/**
 * Logarithm of the upper tail of the standard normal distribution, ln(1 − Φ(z)), exact to about 1e-14 relative far into
 * either tail: Taylor series about 0, Laplace's continued fraction beyond 2.5 (Abramowitz & Stegun 26.2.11 and 26.2.14).
 * @param z standard normal deviate, any number; −Infinity gives 0, Infinity gives −Infinity
 * @returns log probability 0 or below; logNormalTail(1) → −1.8410216450092634
 */
export function logNormalTail(z: number): number {
  if (z === Infinity) return -Infinity;
  if (z > 2.5) return upperLogTail(z);
  if (z < -2.5) return z === -Infinity ? 0 : Math.log1p(-Math.exp(upperLogTail(-z)));
  let term = z;
  let sum = z;
  for (let step = 3; Math.abs(term) > 1e-18 * Math.abs(sum); step += 2) {
    term *= (z * z) / step;
    sum += term;
  }
  return Math.log(0.5 - sum * Math.exp(logNormalDensity(z)));
}

function upperLogTail(z: number): number {
  const terms = z > 6 ? 40 : 160;
  let fraction = z;
  for (let term = terms; term >= 1; term--) fraction = z + term / fraction;
  return logNormalDensity(z) - Math.log(fraction);
}
