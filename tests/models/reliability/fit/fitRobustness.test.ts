import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fitLifetime } from '../../../../models/reliability/fit/fitLifetime.ts';
import type { LifetimeKind } from '../../../../models/reliability/fit/fitLifetime.ts';
import { FitRefused } from '../../../../models/reliability/fit/fitRefused.ts';
import { lifetimeLikelihood } from '../../../../models/reliability/fit/lifetimeLikelihood.ts';
import { rowsFromTimes } from '../../../../models/reliability/fit/lifetimeRows.ts';
import type { LifetimeRows } from '../../../../models/reliability/fit/lifetimeRows.ts';
import { lognormalRow } from '../../../../models/reliability/fit/lognormalRow.ts';
import { weibayes } from '../../../../models/reliability/fit/weibayes.ts';
import { weibullRow } from '../../../../models/reliability/fit/weibullRow.ts';

fc.configureGlobal({ seed: 20260331 });

const handbook = { mean: [Math.log(300_000), Math.log(2)], sd: [0.7, 0.4] };

function refusal(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (error instanceof FitRefused) return error.code;
    throw error;
  }
  return 'fitted';
}

test('no failure: refused without a prior, the prior pushed upwards with one', () => {
  const rows = rowsFromTimes([100_000, 250_000, 400_000], [false, false, false]);
  expect(refusal(() => fitLifetime('weibull', rows))).toBe('no_failures');
  expect(refusal(() => weibayes(2, rows))).toBe('no_failures');
  const fit = fitLifetime('weibull', rows, { prior: handbook });
  expect(fit.coefficients[0]).toBeGreaterThan(Math.log(300_000));
  expect(fit.coefficients[0]).toBeLessThan(Math.log(300_000) + 1.4);
  expect(Math.sqrt(fit.covariance[0])).toBeLessThan(0.7);
});

test('one failure at the oldest age, or failures at one age: shape without bound is refused, with a prior it is anchored', () => {
  for (const rows of [
    rowsFromTimes([100, 200, 300], [false, false, true]),
    rowsFromTimes([50, 50, 50, 50], [true, true, true, true]),
  ]) {
    expect(refusal(() => fitLifetime('weibull', rows))).toBe('shape_unbounded');
    const fit = fitLifetime('weibull', rows, { prior: { mean: [0, Math.log(2)], sd: [Infinity, 0.4] } });
    expect(fit.shape).toBeGreaterThan(1);
    expect(fit.shape).toBeLessThan(6);
  }
});

test('constant covariate and separation are refused by name, and anchored by a prior', () => {
  const time = [10, 20, 30, 40, 50, 60, 70, 80];
  const failed = [true, true, true, true, false, false, false, false];
  const constant = rowsFromTimes(time, failed, {
    covariates: new Float64Array(8).fill(3),
    covariateCount: 1,
  });
  expect(refusal(() => fitLifetime('weibull', constant))).toBe('not_identified');
  const apart = rowsFromTimes(time, failed, {
    covariates: Float64Array.from(failed, Number),
    covariateCount: 1,
  });
  expect(refusal(() => fitLifetime('weibull', apart))).toBe('separation');
  const twice = rowsFromTimes(time, failed, {
    covariates: Float64Array.from([1, 2, 3, 5, 4, 2, 6, 1].flatMap((x) => [x, 2 * x])),
    covariateCount: 2,
  });
  expect(refusal(() => fitLifetime('weibull', twice))).toBe('not_identified');
  const prior = { mean: [0, 0, Math.log(2)], sd: [Infinity, 0.5, 0.4] };
  for (const rows of [constant, apart]) {
    const fit = fitLifetime('weibull', rows, { prior });
    expect(Math.abs(fit.coefficients[1])).toBeLessThan(2);
  }
});

test('everything found at the first look can go to no scale and is refused', () => {
  const rows: LifetimeRows = { low: new Float64Array(3), high: Float64Array.of(10, 20, 30) };
  expect(refusal(() => fitLifetime('weibull', rows))).not.toBe('fitted');
});

test('impossible rows are refused by row and field', () => {
  const row = (low: number, high: number, entry = 0): LifetimeRows => ({
    low: Float64Array.of(low),
    high: Float64Array.of(high),
    entry: Float64Array.of(entry),
  });
  expect(() => fitLifetime('weibull', row(-1, 5))).toThrow('row 0: low must not be below entry 0, got -1');
  expect(() => fitLifetime('weibull', row(7, 5))).toThrow('row 0: high must not be below low 7, got 5');
  expect(() => fitLifetime('weibull', row(NaN, 5))).toThrow('got NaN');
  expect(() => fitLifetime('weibull', row(5, 5, 6))).toThrow('row 0: low must not be below entry 6, got 5');
  expect(() =>
    fitLifetime('weibull', { ...row(5, 5), fixedShape: 0 } as LifetimeRows, { fixedShape: 0 }),
  ).toThrow('fixedShape must be above 0, got 0');
});

const rowsWithSpansFrom = (least: number) =>
  fc
    .array(
      fc.record({
        entry: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 300, noNaN: true })),
        span: fc.double({ min: least, max: 1e3, noNaN: true }),
        width: fc.constantFrom('exact', 'running', 'found', 'first look'),
        x: fc.oneof(fc.constant(1), fc.double({ min: -3, max: 3, noNaN: true })),
        weight: fc.constantFrom(0.3, 1, 5),
      }),
      { minLength: 1, maxLength: 25 },
    )
    .map((list): LifetimeRows => {
      const low = list.map((r) => (r.width === 'first look' ? r.entry : r.entry + r.span));
      return {
        low: Float64Array.from(low),
        high: Float64Array.from(list, (r, i) =>
          r.width === 'running' ? Infinity : r.width === 'exact' ? low[i] : low[i] + r.span,
        ),
        entry: Float64Array.from(list, (r) => r.entry),
        weight: Float64Array.from(list, (r) => r.weight),
        covariates: Float64Array.from(list, (r) => r.x),
        covariateCount: 1,
      };
    });
const anyRows = rowsWithSpansFrom(1e-3);
const anyKind = fc.constantFrom<LifetimeKind>('weibull', 'lognormal', 'exponential');

test('any rows: a finite fit or a refusal by code, never NaN', () => {
  fc.assert(
    fc.property(anyRows, anyKind, (rows, kind) => {
      try {
        const fit = fitLifetime(kind, rows);
        for (const value of [...fit.coefficients, fit.shape, ...fit.covariance, fit.logLikelihood])
          expect(Number.isFinite(value)).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(FitRefused);
      }
    }),
    { numRuns: 400 },
  );
});

test('any rows with priors on every parameter: always a finite fit', () => {
  fc.assert(
    fc.property(anyRows, fc.constantFrom<LifetimeKind>('weibull', 'lognormal'), (rows, kind) => {
      const fit = fitLifetime(kind, rows, { prior: { mean: [5, 0, Math.log(2)], sd: [0.7, 0.5, 0.4] } });
      for (const value of [...fit.coefficients, fit.shape, ...fit.covariance, fit.logLikelihood])
        expect(Number.isFinite(value)).toBe(true);
      expect(fit.covariance[0]).toBeGreaterThan(0);
    }),
    { numRuns: 400 },
  );
});

test('gradient and Hessian are those of the value (central differences)', () => {
  fc.assert(
    fc.property(
      // differences of neighbouring tails cost digits: a span of 1e-3 at 300 leaves too few to compare
      rowsWithSpansFrom(0.1),
      fc.constantFrom(weibullRow, lognormalRow),
      fc.double({ min: 4, max: 7, noNaN: true }),
      fc.double({ min: -0.3, max: 0.3, noNaN: true }),
      fc.double({ min: -0.5, max: 0.9, noNaN: true }),
      (rows, row, logScale, slope, logShape) => {
        const evaluate = lifetimeLikelihood(rows, rows.covariates!, 1, row, null);
        const at = Float64Array.of(logScale, slope, logShape);
        const gradient = new Float64Array(3);
        const hessian = new Float64Array(9);
        const value = evaluate(at, gradient, hessian);
        fc.pre(Math.abs(value) < 1e4);
        const aside = [new Float64Array(3), new Float64Array(3), new Float64Array(9)] as const;
        for (let j = 0; j < 3; j++) {
          const step = 1e-5;
          const up = evaluate(
            at.map((v, k) => (k === j ? v + step : v)),
            aside[0],
            aside[2],
          );
          const down = evaluate(
            at.map((v, k) => (k === j ? v - step : v)),
            aside[1],
            aside[2],
          );
          const size = 1 + Math.abs(value) + Math.hypot(...hessian);
          expect(Math.abs((up - down) / (2 * step) - gradient[j])).toBeLessThan(1e-5 * size);
          for (let k = j; k < 3; k++)
            expect(Math.abs((aside[0][k] - aside[1][k]) / (2 * step) - hessian[k * 3 + j])).toBeLessThan(
              1e-5 * size,
            );
        }
      },
    ),
    { numRuns: 200 },
  );
});

test('the unit of time does not matter: shape stays, scale follows', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 1, max: 1e4, noNaN: true }), { minLength: 5, maxLength: 20 }),
      (times) => {
        const failed = times.map((_, i) => i % 3 !== 0);
        const prior = { mean: [0, Math.log(2)], sd: [Infinity, 0.5] };
        const inKm = fitLifetime('weibull', rowsFromTimes(times, failed), { prior });
        const inMiles = fitLifetime(
          'weibull',
          rowsFromTimes(
            times.map((t) => t / 1.609344),
            failed,
          ),
          { prior },
        );
        expect(inMiles.shape).toBeCloseTo(inKm.shape, 6);
        expect(inMiles.coefficients[0] + Math.log(1.609344)).toBeCloseTo(inKm.coefficients[0], 6);
      },
    ),
  );
});
