/**
 * Averages over a first-order decay e^(-x·t), t from 0 to 1, that stay exact for small x.
 * With fuel(t) = fuel0·e^(-xt) + inflow·decayOnce(xt)·t these give the fuel's level, its sum and the sum of its sum.
 * Source: elementary calculus; the series is used below 0.1, where the closed form loses digits.
 */

/** (1 − e^−x) / x, 1 at 0; x ≥ 0. decayOnce(1) = 0.632121. */
export function decayOnce(x: number): number {
  if (x < 1e-8) return 1 - x / 2;
  return -Math.expm1(-x) / x;
}

/** (x − 1 + e^−x) / x², 1/2 at 0; x ≥ 0. decayTwice(1) = 0.367879. */
export function decayTwice(x: number): number {
  if (x < 0.1) return 1 / 2 - (x / 6) * (1 - (x / 4) * (1 - (x / 5) * (1 - (x / 6) * (1 - x / 7))));
  return (x + Math.expm1(-x)) / (x * x);
}

/** (x²/2 − x + 1 − e^−x) / x³, 1/6 at 0; x ≥ 0. decayThrice(1) = 0.132121. */
export function decayThrice(x: number): number {
  if (x < 0.1) return 1 / 6 - (x / 24) * (1 - (x / 5) * (1 - (x / 6) * (1 - (x / 7) * (1 - x / 8))));
  return (x * x * 0.5 - x - Math.expm1(-x)) / (x * x * x);
}
