import fc from 'fast-check';
import { expect, test } from 'vitest';
import { exponential } from '../../../../models/reliability/lifetime/exponential.ts';
import type { Lifetime } from '../../../../models/reliability/lifetime/lifetime.ts';
import { lognormal } from '../../../../models/reliability/lifetime/lognormal.ts';
import { weibull } from '../../../../models/reliability/lifetime/weibull.ts';

fc.configureGlobal({ seed: 20260331 });

test('Weibull, worked by hand: shape 2, scale 100 at 50', () => {
  const life = weibull(2, 100);
  expect(life.logSurvival(50)).toBe(-0.25);
  expect(life.hazard(50)).toBeCloseTo(0.01, 15);
  expect(life.logDensity(50)).toBeCloseTo(Math.log(0.01) - 0.25, 14);
  expect(life.quantile(1 - Math.exp(-0.25))).toBeCloseTo(50, 12);
  expect(life.mean).toBeCloseTo(50 * Math.sqrt(Math.PI), 10);
});

test('NIST/SEMATECH e-Handbook 8.4.1.3: mean 540.737 from the printed shape and scale', () => {
  expect(weibull(1.7208, 606.528).mean).toBeCloseTo(540.737, 2);
});

test('exponential and lognormal, worked by hand', () => {
  expect(exponential(100).logSurvival(50)).toBe(-0.5);
  expect(exponential(100).quantile(0.5)).toBeCloseTo(100 * Math.LN2, 12);
  const life = lognormal(100, 0.5);
  expect(life.logSurvival(100)).toBeCloseTo(Math.log(0.5), 14);
  expect(life.mean).toBeCloseTo(100 * Math.exp(0.125), 12);
  expect(life.quantile(0.5)).toBeCloseTo(100, 12);
  expect(life.hazard(0)).toBe(0);
});

test('parameters and shares outside the domain are refused by name', () => {
  expect(() => weibull(-1, 1)).toThrow('shape must be above 0, got -1');
  expect(() => weibull(1, NaN)).toThrow('scale must be above 0, got NaN');
  expect(() => lognormal(0, 1)).toThrow('median must be above 0, got 0');
  expect(() => exponential(1).quantile(1)).toThrow('failedShare must lie from 0 to below 1, got 1');
});

test('hazard is density over survival, the density is the slope of −survival, and the quantile undoes survival', () => {
  const parameter = fc.double({ min: 0.3, max: 8, noNaN: true });
  const anyLife: fc.Arbitrary<Lifetime> = fc.oneof(
    fc.tuple(parameter, parameter).map(([shape, scale]) => weibull(shape, scale * 1000)),
    parameter.map((mean) => exponential(mean * 1000)),
    fc.tuple(parameter, parameter).map(([median, logSd]) => lognormal(median * 1000, logSd / 4)),
  );
  fc.assert(
    fc.property(anyLife, fc.double({ min: 0.001, max: 0.999, noNaN: true }), (life, share) => {
      const time = life.quantile(share);
      expect(-Math.expm1(life.logSurvival(time))).toBeCloseTo(share, 9);
      const ratio = Math.log(life.hazard(time)) - (life.logDensity(time) - life.logSurvival(time));
      expect(Math.abs(ratio)).toBeLessThan(1e-9);
      const step = 1e-5 * time;
      const slope =
        (Math.exp(life.logSurvival(time - step)) - Math.exp(life.logSurvival(time + step))) / (2 * step);
      expect(Math.abs(slope / Math.exp(life.logDensity(time)) - 1)).toBeLessThan(1e-4);
    }),
  );
});
