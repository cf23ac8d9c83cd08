import { describe, expect, test } from 'vitest';
import { fitLifetime } from '../../../../models/reliability/fit/fitLifetime.ts';
import type { LifetimeFit } from '../../../../models/reliability/fit/fitLifetime.ts';
import { lifetimeAt, lifetimeQuantile } from '../../../../models/reliability/fit/lifetimeQuantile.ts';
import { rowLogLikelihoods } from '../../../../models/reliability/fit/lifetimeLikelihood.ts';
import { rowsFromTimes } from '../../../../models/reliability/fit/lifetimeRows.ts';
import type { LifetimeRows } from '../../../../models/reliability/fit/lifetimeRows.ts';
import { weibayes } from '../../../../models/reliability/fit/weibayes.ts';
import { weibullRow } from '../../../../models/reliability/fit/weibullRow.ts';
import { interleave, numbers, reference, relativeMiss } from '../reference.ts';

interface Expected {
  readonly coefficients: readonly number[];
  readonly scale: number;
  readonly logLikelihood: number;
  readonly covariance: readonly (number | readonly number[])[] | number;
}

const { parametric } = reference;

function rowsOf(data: { time: number[]; status: number[] }, extra: Omit<LifetimeRows, 'low' | 'high'> = {}) {
  return rowsFromTimes(
    data.time,
    data.status.map((status) => status === 1),
    extra,
  );
}

/** survreg's log scale is minus our log shape, so its covariances with the coefficients change sign. */
function expectSurvreg(fit: LifetimeFit, expected: Expected): void {
  expect(fit.logLikelihood).toBeCloseTo(expected.logLikelihood, 7);
  expect(relativeMiss(fit.coefficients, expected.coefficients)).toBeLessThan(1e-6);
  expect(fit.shape * expected.scale).toBeCloseTo(1, 6);
  const size = fit.parameterCount;
  const survreg = [expected.covariance].flat(2);
  const turned = fit.covariance.map((value, i) => {
    const row = Math.floor(i / size);
    const shapeRow = fit.kind !== 'exponential' && row === size - 1;
    const shapeColumn = fit.kind !== 'exponential' && i % size === size - 1;
    return shapeRow !== shapeColumn ? -value : value;
  });
  expect(relativeMiss(turned, survreg)).toBeLessThan(2e-5);
}

describe('against R survreg', () => {
  const nist = rowsOf(parametric.nistWeibull.data);
  const shocks = rowsOf(parametric.shockAbsorbers.data);
  const fans = rowsOf(parametric.genfan.data);
  const cage = rowsOf(parametric.bearingCage.data, {
    weight: Float64Array.from(parametric.bearingCage.data.count),
  });

  test('NIST/SEMATECH e-Handbook 8.4.1.3: shape 1.7208, scale 606.528, −log likelihood 75.135, mean 540.737', () => {
    const fit = fitLifetime('weibull', nist);
    expectSurvreg(fit, parametric.nistWeibull);
    expect(fit.shape).toBeCloseTo(1.7208, 4);
    expect(Math.exp(fit.coefficients[0])).toBeCloseTo(606.528, 3);
    expect(-fit.logLikelihood).toBeCloseTo(75.135, 3);
    expect(lifetimeAt(fit).mean).toBeCloseTo(540.737, 3);
    expectSurvreg(fitLifetime('lognormal', nist), parametric.nistLognormal);
  });

  test('vehicle shock absorbers (Meeker and Escobar, table C.2): mu 10.2299, sigma 0.3164', () => {
    expectSurvreg(fitLifetime('weibull', shocks), parametric.shockAbsorbers);
    expectSurvreg(fitLifetime('lognormal', shocks), parametric.shockAbsorbersLognormal);
  });

  test('bearing cage (Abernethy; Meeker and Escobar): shape 2.0353 (1.072 to 3.864), scale 11792.2 h', () => {
    const fit = fitLifetime('weibull', cage);
    expectSurvreg(fit, parametric.bearingCage);
    const logShapeSe = Math.sqrt(fit.covariance[3]);
    expect(fit.shape * Math.exp(-1.959963984540054 * logShapeSe)).toBeCloseTo(1.072, 3);
    expect(fit.shape * Math.exp(1.959963984540054 * logShapeSe)).toBeCloseTo(3.864, 3);
  });

  test('bearing cage: 5.0582 failures expected in the next 300 h', () => {
    const life = lifetimeAt(fitLifetime('weibull', cage));
    const { time, status, count } = parametric.bearingCage.data;
    let expected = 0;
    time.forEach((hours, i) => {
      if (status[i] === 0)
        expected += count[i] * -Math.expm1(life.logSurvival(hours + 300) - life.logSurvival(hours));
    });
    expect(expected).toBeCloseTo(parametric.bearingCageNext300h.expected, 5);
  });

  test('bearing cage Weibayes (Abernethy): B10 6465.21, 3999.09, 2554.69 h for shapes 1.5, 2, 3', () => {
    for (const expected of parametric.bearingCageWeibayes) {
      const closed = weibayes(expected.shape, cage);
      expect(closed.scale).toBeCloseTo(expected.scale, 6);
      const fit = fitLifetime('weibull', cage, { fixedShape: expected.shape });
      expect(Math.exp(fit.coefficients[0])).toBeCloseTo(expected.scale, 5);
      expect(lifetimeAt(fit).quantile(0.1)).toBeCloseTo(expected.b10, 5);
    }
  });

  test('generator fans (Nelson; R survival::genfan), three distributions', () => {
    expectSurvreg(fitLifetime('weibull', fans), parametric.genfan);
    expectSurvreg(fitLifetime('lognormal', fans), parametric.genfanLognormal);
    expectSurvreg(fitLifetime('exponential', fans), parametric.genfanExponential);
  });

  test('motorette insulation and glass capacitors (R survival::imotor, capacitor): accelerated life', () => {
    const imotor = parametric.imotor.data;
    const motors = rowsOf(imotor, { covariates: Float64Array.from(imotor.temperature), covariateCount: 1 });
    expectSurvreg(fitLifetime('weibull', motors), parametric.imotor);
    const capacitor = parametric.capacitor.data;
    const glass = rowsOf(capacitor, {
      covariates: interleave(capacitor.temperature, capacitor.voltage),
      covariateCount: 2,
    });
    expectSurvreg(fitLifetime('weibull', glass), parametric.capacitor);
  });

  test('lung (R survival::lung): three covariates, Weibull and lognormal', () => {
    const { time, status, age, sex, ecog } = reference.lung;
    const rows = rowsOf({ time, status }, { covariates: interleave(age, sex, ecog), covariateCount: 3 });
    expectSurvreg(fitLifetime('weibull', rows), parametric.lungWeibull);
    expectSurvreg(fitLifetime('lognormal', rows), parametric.lungLognormal);
  });

  test('turbine wheels (Nelson; R survival::turbine): inspected once, cracked or not', () => {
    const { hours, inspected, failed } = parametric.turbine;
    const rows: LifetimeRows = {
      low: Float64Array.from([...hours.map(() => 0), ...hours]),
      high: Float64Array.from([...hours, ...hours.map(() => Infinity)]),
      weight: Float64Array.from([...failed, ...inspected.map((n, i) => n - failed[i])]),
    };
    expectSurvreg(fitLifetime('weibull', rows), parametric.turbine);
    expectSurvreg(fitLifetime('lognormal', rows), parametric.turbineLognormal);
  });

  test('cracks (Meeker and Escobar; R survival::cracks): found between inspections', () => {
    const { days, failed, parts } = parametric.cracks;
    const found = failed.reduce((a, b) => a + b, 0);
    const rows: LifetimeRows = {
      low: Float64Array.from([0, ...days]),
      high: Float64Array.from([...days, Infinity]),
      weight: Float64Array.from([...failed, parts - found]),
    };
    expectSurvreg(fitLifetime('weibull', rows), parametric.cracks);
  });

  test('quantiles with their standard errors of ln t', () => {
    const check = (
      fit: LifetimeFit,
      expected: { quantiles: { probability: number[]; logTime: number[]; logTimeSe: number[] } },
    ) => {
      const { probability, logTime, logTimeSe } = expected.quantiles;
      const found = probability.map((p) => lifetimeQuantile(fit, p));
      expect(
        relativeMiss(
          found.map((q) => Math.log(q.value)),
          logTime,
        ),
      ).toBeLessThan(1e-6);
      expect(
        relativeMiss(
          found.map((q) => q.logSe),
          logTimeSe,
        ),
      ).toBeLessThan(1e-5);
      found.forEach((q) => expect(Math.log(q.high / q.value)).toBeCloseTo(1.2815515655446 * q.logSe, 10));
    };
    check(fitLifetime('weibull', nist), parametric.nistWeibull);
    check(fitLifetime('weibull', cage), parametric.bearingCage);
    check(fitLifetime('lognormal', fans), parametric.genfanLognormal);
    check(fitLifetime('exponential', fans), parametric.genfanExponential);
  });
});

describe('delayed entry with inspections (16 invented rows, maximised by R optim and nlm)', () => {
  const { mixed } = reference.truncation;
  const rows: LifetimeRows = {
    low: Float64Array.from(mixed.data.low),
    high: Float64Array.from(numbers(mixed.data.high)),
    entry: Float64Array.from(mixed.data.entry),
  };

  test('each of the 16 contributions at shape 2, scale 100, the first worked by hand', () => {
    const each = rowLogLikelihoods(rows, weibullRow, Math.log(100), 2);
    expect(each[0]).toBeCloseTo(Math.log(0.02) + Math.log(0.45) - 0.2025, 12);
    expect(relativeMiss(each, mixed.each)).toBeLessThan(1e-12);
    expect(each.reduce((a, b) => a + b, 0)).toBeCloseTo(-42.201736, 6);
  });

  test('maximum: shape 2.139384, scale 105.7559, log likelihood −42.118390', () => {
    const fit = fitLifetime('weibull', rows);
    expect(fit.logLikelihood).toBeCloseTo(mixed.logLikelihood, 9);
    expect(Math.log(fit.shape)).toBeCloseTo(mixed.logShape, 6);
    expect(fit.coefficients[0]).toBeCloseTo(mixed.logScale, 6);
    expect([Math.sqrt(fit.covariance[3]), Math.sqrt(fit.covariance[0])]).toEqual(
      mixed.seLog.map((se) => expect.closeTo(se, 5)),
    );
  });
});
