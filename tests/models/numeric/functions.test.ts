import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chiSquareQuantile } from '../../../models/numeric/chiSquareQuantile.ts';
import { gammaQuantile } from '../../../models/numeric/gammaQuantile.ts';
import { gaussHermite } from '../../../models/numeric/gaussHermite.ts';
import { incompleteGamma } from '../../../models/numeric/incompleteGamma.ts';
import { normalCdf, normalQuantile } from '../../../models/numeric/normal.ts';
import { logNormalTail } from '../../../models/numeric/normalTail.ts';
import { normalDraw, seededRandom } from '../../../models/numeric/random.ts';
import { reference, relativeMiss } from '../reliability/reference.ts';

fc.configureGlobal({ seed: 20260331 });

const { normal, gamma, chiSquare } = reference.functions;

test('normal tail and quantile agree with R pnorm and qnorm', () => {
  expect(
    relativeMiss(
      normal.x.map((x) => logNormalTail(-x)),
      normal.logProbability,
    ),
  ).toBeLessThan(1e-12);
  expect(relativeMiss(normal.p.map(normalQuantile), normal.quantile)).toBeLessThan(1e-12);
  expect(normalCdf(1.959963984540054)).toBeCloseTo(0.975, 14);
});

test('incomplete gamma and its quantile agree with R pgamma and qchisq', () => {
  expect(
    relativeMiss(
      gamma.x.map((x, i) => incompleteGamma(gamma.shape[i], x)),
      gamma.probability,
    ),
  ).toBeLessThan(1e-12);
  const quantiles = chiSquare.degrees.map((degrees, i) => chiSquareQuantile(degrees, chiSquare.p[i]));
  expect(relativeMiss(quantiles, chiSquare.quantile)).toBeLessThan(1e-11);
});

test('gamma quantile and normal quantile undo their distribution functions', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 500, noNaN: true }),
      fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }),
      (shape, p) => {
        expect(Math.abs(incompleteGamma(shape, gammaQuantile(shape, p)) - p)).toBeLessThan(1e-10);
        expect(Math.abs(normalCdf(normalQuantile(p)) - p)).toBeLessThan(1e-13);
      },
    ),
  );
});

test('arguments outside the domain are refused by name', () => {
  expect(() => normalQuantile(0)).toThrow('probability must lie between 0 and 1, got 0');
  expect(() => gammaQuantile(-1, 0.5)).toThrow('shape must be above 0, got -1');
  expect(() => incompleteGamma(1, -2)).toThrow('x must be 0 or above, got -2');
  expect(() => gaussHermite(0)).toThrow('points must be a whole number from 1 to 64, got 0');
});

test('Gauss–Hermite nodes agree with Abramowitz and Stegun table 25.10, n = 5', () => {
  const rule = gaussHermite(5);
  const table = [-2.02018287045609, -0.958572464613819, 0, 0.958572464613819, 2.02018287045609];
  const weights = [
    0.0199532420590459, 0.393619323152241, 0.945308720482942, 0.393619323152241, 0.0199532420590459,
  ];
  expect(
    relativeMiss(
      rule.nodes.map((node) => node / Math.SQRT2),
      table,
    ),
  ).toBeLessThan(1e-13);
  expect(
    relativeMiss(
      rule.weights.map((weight) => weight * Math.sqrt(Math.PI)),
      weights,
    ),
  ).toBeLessThan(1e-13);
});

test('Gauss–Hermite rules hold the normal moments 1, 0, 1, 0, 3 and the mean of exp', () => {
  for (const points of [3, 7, 20, 64]) {
    const { nodes, weights } = gaussHermite(points);
    const moment = (f: (x: number) => number) => weights.reduce((sum, w, i) => sum + w * f(nodes[i]), 0);
    expect([0, 1, 2, 3, 4].map((power) => Math.round(moment((x) => x ** power) * 1e9) / 1e9 + 0)).toEqual([
      1, 0, 1, 0, 3,
    ]);
    if (points > 3) expect(moment(Math.exp)).toBeCloseTo(Math.exp(0.5), 4);
  }
});

test('seeded draws repeat, and normal draws have mean 0 and sd 1', () => {
  const first = seededRandom(5);
  const second = seededRandom(5);
  expect(Array.from({ length: 5 }, first)).toEqual(Array.from({ length: 5 }, second));
  const random = seededRandom(11);
  const draws = Array.from({ length: 20_000 }, () => normalDraw(random));
  const mean = draws.reduce((a, b) => a + b, 0) / draws.length;
  const variance = draws.reduce((a, b) => a + (b - mean) ** 2, 0) / draws.length;
  expect(Math.abs(mean)).toBeLessThan(0.02);
  expect(Math.abs(variance - 1)).toBeLessThan(0.03);
});
