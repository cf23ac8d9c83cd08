import { describe, expect, test } from 'vitest';
import { fitLifetime } from '../../../../models/reliability/fit/fitLifetime.ts';
import type { LifetimeRows } from '../../../../models/reliability/fit/lifetimeRows.ts';
import { seededRandom } from '../../../../models/numeric/random.ts';

const count = 20_000;
const random = seededRandom(11);
const x = Float64Array.from({ length: count }, () => random() - 0.5);
const life = x.map((value) => 1000 * Math.exp(0.8 * value) * (-Math.log(1 - random())) ** (1 / 2.5));
const seen = x.map(() => 400 + 1200 * random());

/** The rows in an order of their own, each with a covariate. */
function rowsIn(order: readonly number[]): LifetimeRows {
  const pick = (value: (i: number) => number) => Float64Array.from(order, value);
  return {
    low: pick((i) => Math.min(life[i], seen[i])),
    high: pick((i) => (life[i] <= seen[i] ? life[i] : Infinity)),
    covariates: pick((i) => x[i]),
    covariateCount: 1,
  };
}

const inOrder = Array.from({ length: count }, (_, i) => i);

describe('twenty thousand rows, begun from a part of them', () => {
  const fit = fitLifetime('weibull', rowsIn(inOrder));

  test('find the truth they were drawn from: scale 1000, effect 0.8, shape 2.5', () => {
    expect(Math.abs(Math.exp(fit.coefficients[0]) / 1000 - 1)).toBeLessThan(0.02);
    expect(Math.abs(fit.coefficients[1] - 0.8)).toBeLessThan(0.05);
    expect(Math.abs(fit.shape - 2.5)).toBeLessThan(0.06);
  });

  test('the optimum does not depend on which part that was, nor on there being one', () => {
    const byLife = rowsIn([...inOrder].sort((a, b) => life[a] - life[b]));
    const without = rowsIn(inOrder.slice(1));
    const whole = fitLifetime('weibull', byLife);
    expect(whole.shape).toBeCloseTo(fit.shape, 8);
    expect(whole.coefficients[1]).toBeCloseTo(fit.coefficients[1], 8);
    expect(whole.logLikelihood).toBeCloseTo(fit.logLikelihood, 5);
    // one row fewer is fitted from the plain start
    expect(fitLifetime('weibull', without).shape).toBeCloseTo(fit.shape, 3);
  });

  test('a part without failures is passed over', () => {
    // every eighth row belongs to the part; put only running ones there
    const running = inOrder.filter((i) => life[i] > seen[i]);
    const failed = inOrder.filter((i) => life[i] <= seen[i]);
    const order = inOrder.map((_, place) =>
      place % 8 === 0 ? running.pop()! : (failed.pop() ?? running.pop()!),
    );
    const other = fitLifetime('weibull', rowsIn(order));
    expect(other.shape).toBeCloseTo(fit.shape, 8);
  });
});
