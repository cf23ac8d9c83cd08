import { expect, test } from 'vitest';
import { fitLifetime } from '../../../../models/reliability/fit/fitLifetime.ts';
import { lifetimeLikelihood } from '../../../../models/reliability/fit/lifetimeLikelihood.ts';
import { rowsFromTimes } from '../../../../models/reliability/fit/lifetimeRows.ts';
import { weibullRow } from '../../../../models/reliability/fit/weibullRow.ts';
import { cholesky, inverseOfFactor } from '../../../../models/numeric/cholesky.ts';
import { seededRandom } from '../../../../models/numeric/random.ts';
import { importanceDraws } from '../../../../models/reliability/posterior/importanceDraws.ts';
import { laplaceDraws } from '../../../../models/reliability/posterior/laplaceDraws.ts';
import { fitParetoTail, paretoQuantile } from '../../../../models/reliability/posterior/paretoShape.ts';
import { resampleIndices, smoothWeights } from '../../../../models/reliability/posterior/smoothWeights.ts';
import { reference } from '../reference.ts';

const quantile = (values: number[], p: number) => values.sort((a, b) => a - b)[Math.floor(p * values.length)];

test('Laplace draws have the mode as mean and the inverse Hessian as covariance', () => {
  const hessian = Float64Array.of(4, 1, 1, 2);
  const draws = laplaceDraws(Float64Array.of(3, -1), cholesky(hessian, 2)!, 40_000, seededRandom(3));
  const mean = [0, 1].map((j) => draws.reduce((sum, d) => sum + d[j], 0) / draws.length);
  expect(mean[0]).toBeCloseTo(3, 1);
  expect(mean[1]).toBeCloseTo(-1, 1);
  const covariance = draws.reduce((sum, d) => sum + (d[0] - mean[0]) * (d[1] - mean[1]), 0) / draws.length;
  expect(covariance).toBeCloseTo(-1 / 7, 2);
});

test('bearing cage with log shape ~ N(log 2.5, 0.2): resampled t reproduces the posterior found on a grid', () => {
  const { data } = reference.parametric.bearingCage;
  const rows = rowsFromTimes(
    data.time,
    data.status.map((s) => s === 1),
    { weight: Float64Array.from(data.count) },
  );
  const prior = { mean: [0, Math.log(2.5)], sd: [Infinity, 0.2] };
  const fit = fitLifetime('weibull', rows, { prior });
  const evaluate = lifetimeLikelihood(rows, new Float64Array(0), 0, weibullRow, null);
  const scratch = [new Float64Array(2), new Float64Array(4)] as const;
  const logPosterior = (at: Float64Array) =>
    -evaluate(at, ...scratch) - 0.5 * ((at[1] - Math.log(2.5)) / 0.2) ** 2;
  const precision = inverseOfFactor(cholesky(fit.covariance, 2)!, 2);
  const mode = Float64Array.of(fit.coefficients[0], Math.log(fit.shape));
  const proposal = { mode, precisionFactor: cholesky(precision, 2)! };
  const found = importanceDraws(logPosterior, proposal, 20_000, 10_000, seededRandom(8));
  expect(found.paretoK).toBeLessThan(0.7);
  expect(found.effectiveCount).toBeGreaterThan(5_000);
  const shapes = found.draws.map((draw) => Math.exp(draw[1]));
  const b10 = found.draws.map((draw) => Math.exp(draw[0]) * (-Math.log(0.9)) ** Math.exp(-draw[1]));
  const { shapeQuantiles, b10Quantiles } = reference.parametric.bearingCageMap;
  [0.025, 0.5, 0.975].forEach((p, k) => {
    expect(Math.abs(Math.log(quantile(shapes, p) / shapeQuantiles[k]))).toBeLessThan(0.02);
    expect(Math.abs(Math.log(quantile(b10, p) / b10Quantiles[k]))).toBeLessThan(0.04);
  });
});

test('the tail shape of Pareto draws is found, and its quantile undoes the distribution', () => {
  const random = seededRandom(21);
  const draws = Array.from(
    { length: 4000 },
    () => (0.7 / 0.4) * Math.expm1(-0.4 * Math.log(1 - random())),
  ).sort((a, b) => a - b);
  const tail = fitParetoTail(draws);
  expect(tail.shape).toBeCloseTo(0.4, 1);
  expect(tail.scale).toBeCloseTo(0.7, 1);
  expect(paretoQuantile({ shape: 0.4, scale: 0.7 }, 1 - (1 + (0.4 * 2) / 0.7) ** (-1 / 0.4))).toBeCloseTo(
    2,
    12,
  );
  expect(paretoQuantile({ shape: 0, scale: 2 }, 0.5)).toBeCloseTo(2 * Math.LN2, 12);
});

test('weights: alike stay alike with k 0, a single giant shows a k above 0.7, none finite is refused', () => {
  const alike = smoothWeights(new Float64Array(200));
  expect(alike.paretoK).toBe(0);
  expect(alike.effectiveCount).toBeCloseTo(200, 8);
  const random = seededRandom(2);
  const wild = Float64Array.from({ length: 2000 }, () => -3 * Math.log(random()));
  const smoothed = smoothWeights(wild);
  expect(smoothed.paretoK).toBeGreaterThan(0.7);
  expect(smoothed.weights.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
  expect(() => smoothWeights([-Infinity, -Infinity])).toThrow('at least one weight must be finite');
});

test('systematic resampling takes each index in proportion to its weight', () => {
  const picked = resampleIndices(Float64Array.of(0.5, 0.25, 0.25), 8, () => 0.5);
  expect([...picked]).toEqual([0, 0, 0, 0, 1, 1, 2, 2]);
});
