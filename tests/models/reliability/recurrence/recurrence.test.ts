import fc from 'fast-check';
import { expect, test } from 'vitest';
import { FitRefused } from '../../../../models/reliability/fit/fitRefused.ts';
import { meanCumulativeFunction } from '../../../../models/reliability/nonparametric/meanCumulativeFunction.ts';
import type { RepairHistory } from '../../../../models/reliability/nonparametric/meanCumulativeFunction.ts';
import { fitVirtualAge } from '../../../../models/reliability/recurrence/fitVirtualAge.ts';
import { powerLawProcess } from '../../../../models/reliability/recurrence/powerLawProcess.ts';
import { virtualAgeAfter } from '../../../../models/reliability/recurrence/virtualAge.ts';
import { reference, relativeMiss } from '../reference.ts';

fc.configureGlobal({ seed: 20260331 });

const { valveSeat, kijima } = reference.recurrence;

const engines: RepairHistory[] = [...new Set(valveSeat.data.id)].map((id) => {
  const rows = valveSeat.data.time.map((time, i) => ({
    time,
    id: valveSeat.data.id[i],
    status: valveSeat.data.status[i],
  }));
  const own = rows.filter((row) => row.id === id);
  return {
    repairs: own.filter((row) => row.status === 1).map((row) => row.time),
    end: Math.max(...own.map((row) => row.time)),
  };
});

test('mean cumulative function worked by hand: two units, one repaired at 1, both seen to 2', () => {
  const [point] = meanCumulativeFunction([
    { repairs: [1], end: 2 },
    { repairs: [], end: 2 },
  ]);
  expect(point).toMatchObject({ time: 1, atRisk: 2, repairs: 1, mean: 0.5 });
  expect(point.se).toBeCloseTo(Math.sqrt(2 * 0.25 ** 2), 14);
});

test('valve seats of 41 diesel engines (Nelson and Doganaksoy 1989): 48 replacements, robust standard errors', () => {
  const points = meanCumulativeFunction(engines);
  expect(points.reduce((sum, point) => sum + point.repairs, 0)).toBe(48);
  const at = valveSeat.mcf.at.map((time) => points.findLast((point) => point.time <= time)!);
  expect(
    relativeMiss(
      at.map((p) => p.mean),
      valveSeat.mcf.value,
    ),
  ).toBeLessThan(1e-12);
  expect(
    relativeMiss(
      at.map((p) => p.se),
      valveSeat.mcf.se,
    ),
  ).toBeLessThan(1e-12);
  // one engine had two replacements on the same day
  expect(points.filter((point) => point.repairs === 2)).toHaveLength(2);
});

test('power-law process on the valve seats: shape 1.399579, scale 553.6431, log likelihood −346.490299', () => {
  const fit = powerLawProcess(engines);
  expect(fit.shape).toBeCloseTo(1.399579, 6);
  expect(fit.scale).toBeCloseTo(553.643, 3);
  // at the maximum the expected repairs of all engines are the 48 seen
  expect(engines.reduce((sum, engine) => sum + fit.expectedRepairs(0, engine.end), 0)).toBeCloseTo(48, 7);
  expect(fit.logLikelihood).toBeCloseTo(-346.490298877178, 7);
  expect(fit.expectedRepairs(0, fit.scale)).toBeCloseTo(1, 12);
});

test('NIST/SEMATECH e-Handbook 8.4.5.2 repair times: shape from its closed form n / Σ ln(T/t)', () => {
  const repairs = [5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478];
  const closed = repairs.length / repairs.reduce((sum, time) => sum + Math.log(1500 / time), 0);
  const fit = powerLawProcess([{ repairs, end: 1500 }]);
  expect(fit.shape).toBeCloseTo(closed, 7);
  expect(fit.shape).toBeCloseTo(0.537228866034188, 7);
  expect(fit.expectedRepairs(0, 1500)).toBeCloseTo(10, 6);
});

test('virtual age worked by hand', () => {
  expect(virtualAgeAfter('kijima1', 0.5, 100, 60)).toBe(130);
  expect(virtualAgeAfter('kijima2', 0.5, 100, 60)).toBe(80);
});

const repaired: RepairHistory[] = kijima.repairs.map((repairs, i) => ({ repairs, end: kijima.stops[i] }));

test('Kijima I and II on five invented units against R optim and nlm', () => {
  for (const [kind, expected] of [
    ['kijima1', kijima.one],
    ['kijima2', kijima.two],
  ] as const) {
    const fit = fitVirtualAge(kind, repaired);
    expect(fit.logLikelihood).toBeCloseTo(expected.logLikelihood, 6);
    expect(fit.restoration).toBeCloseTo(expected.restoration, 3);
    expect(Math.log(fit.shape)).toBeCloseTo(expected.logShape, 3);
    expect(Math.log(fit.scale)).toBeCloseTo(expected.logScale, 3);
    expect(fit.restorationLow).toBeLessThan(fit.restoration);
    expect(fit.restorationHigh).toBeGreaterThan(fit.restoration);
  }
});

test('as bad as old is the power-law process, whatever the kind; a fixed restoration is kept', () => {
  const process = powerLawProcess(repaired);
  for (const kind of ['kijima1', 'kijima2'] as const) {
    const fit = fitVirtualAge(kind, repaired, { fixedRestoration: 1 });
    expect(fit.shape).toBeCloseTo(process.shape, 7);
    expect(fit.logLikelihood).toBeCloseTo(process.logLikelihood, 7);
    expect(fit.restoration).toBe(1);
  }
});

test('a prior holds the restoration where few repairs say little', () => {
  const one: RepairHistory[] = [
    { repairs: [100], end: 150 },
    { repairs: [], end: 130 },
  ];
  const prior = { mean: [Math.log(150), Math.log(2)], sd: [0.7, 0.4] };
  const fit = fitVirtualAge('kijima2', one, { prior, restorationPrior: [6, 4] });
  expect(fit.restoration).toBeGreaterThan(0.3);
  expect(fit.restoration).toBeLessThan(0.8);
  expect(fit.restorationHigh - fit.restorationLow).toBeGreaterThan(0.2);
});

test('no repair is refused without a prior; repairs out of order and outside are refused by name', () => {
  expect(() => powerLawProcess([{ repairs: [], end: 5 }])).toThrow(FitRefused);
  expect(() => powerLawProcess([{ repairs: [7], end: 5 }])).toThrow(
    'unit 0: repair must lie after 0 and up to 5, got 7',
  );
  expect(() => fitVirtualAge('kijima1', [{ repairs: [3, 2], end: 5 }])).toThrow(
    'unit 0: repair must lie after 3',
  );
  expect(() => meanCumulativeFunction([{ repairs: [7], end: 5 }])).toThrow(
    'unit 0: repair must lie from 0 to 5, got 7',
  );
});

test('the mean cumulative function never falls and ignores the order of units', () => {
  const unit = fc
    .tuple(fc.array(fc.integer({ min: 1, max: 50 }), { maxLength: 5 }), fc.integer({ min: 50, max: 90 }))
    .map(([repairs, end]): RepairHistory => ({ repairs, end }));
  fc.assert(
    fc.property(fc.array(unit, { minLength: 1, maxLength: 12 }), (units) => {
      const points = meanCumulativeFunction(units);
      for (let k = 1; k < points.length; k++) expect(points[k].mean).toBeGreaterThan(points[k - 1].mean);
      const turned = meanCumulativeFunction([...units].reverse());
      expect(
        relativeMiss(
          turned.map((p) => p.se),
          points.map((p) => p.se),
        ),
      ).toBeLessThan(1e-9);
    }),
  );
});
