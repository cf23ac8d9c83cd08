import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inspectionSurvival } from '../../../../models/reliability/nonparametric/inspectionSurvival.ts';
import { kaplanMeier, survivalAt } from '../../../../models/reliability/nonparametric/kaplanMeier.ts';
import { poolAdjacentViolators } from '../../../../models/reliability/nonparametric/poolAdjacentViolators.ts';
import { turnbull } from '../../../../models/reliability/nonparametric/turnbull.ts';
import type { LifetimeRows } from '../../../../models/reliability/fit/lifetimeRows.ts';
import { reference, relativeMiss } from '../reference.ts';

fc.configureGlobal({ seed: 20260331 });

const { nonparametric, parametric } = reference;

interface Curve {
  readonly time: readonly number[];
  readonly survival: readonly number[];
  readonly se: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

function expectCurve(rows: Parameters<typeof kaplanMeier>[0], expected: Curve): void {
  const points = kaplanMeier(rows);
  const at = expected.time.map((time) => points.findLast((point) => point.time <= time)!);
  expect(
    relativeMiss(
      at.map((p) => p.survival),
      expected.survival,
    ),
  ).toBeLessThan(1e-12);
  expect(
    relativeMiss(
      at.map((p) => p.se!),
      expected.se,
    ),
  ).toBeLessThan(1e-12);
  expect(
    relativeMiss(
      at.map((p) => p.low),
      expected.low,
    ),
  ).toBeLessThan(1e-10);
  expect(
    relativeMiss(
      at.map((p) => p.high),
      expected.high,
    ),
  ).toBeLessThan(1e-10);
}

const rowsOf = (data: { time: number[]; status: number[] }) =>
  data.time.map((time, i) => ({ time, failed: data.status[i] === 1 }));

test('Kaplan–Meier worked by hand: failures at 1 and 3, censored at 2, of 4', () => {
  const points = kaplanMeier([
    { time: 1, failed: true },
    { time: 2, failed: false },
    { time: 3, failed: true },
    { time: 4, failed: false },
  ]);
  expect(points.map((p) => [p.time, p.atRisk, p.survival])).toEqual([
    [1, 4, 0.75],
    [3, 2, 0.375],
  ]);
  expect(points[1].se).toBeCloseTo(0.375 * Math.sqrt(1 / 12 + 1 / 2), 14);
  expect([0.5, 1, 2.9, 3, 99].map((t) => survivalAt(points, t))).toEqual([1, 0.75, 0.75, 0.375, 0.375]);
  expect(survivalAt(points, 3, true)).toBe(0.75);
});

test('Kaplan–Meier with Greenwood and log–log limits against R survfit', () => {
  expectCurve(rowsOf(parametric.genfan.data), nonparametric.genfanLogLog);
  expectCurve(rowsOf(nonparametric.amlMaintained.data), nonparametric.amlMaintained);
  expectCurve(rowsOf(reference.lungAll), nonparametric.lungLogLog);
});

test('delayed entry against R survfit with Surv(entry, time, status)', () => {
  const { data } = nonparametric.leftTruncated;
  const rows = data.time.map((time, i) => ({ time, failed: data.status[i] === 1, entry: data.entry[i] }));
  expectCurve(rows, nonparametric.leftTruncated);
});

test('at survival 0 the standard error is null and the limits stay numbers', () => {
  const last = kaplanMeier([
    { time: 1, failed: true },
    { time: 2, failed: true },
  ]).at(-1)!;
  expect(last).toMatchObject({ survival: 0, se: null, low: 0 });
  expect(last.high).toBeLessThan(1);
  expect(kaplanMeier([{ time: 5, failed: false }])).toEqual([]);
  expect(() => kaplanMeier([{ time: -1, failed: true }])).toThrow('row 0: time must be 0 or above, got -1');
});

test('pooling adjacent violators, worked by hand', () => {
  expect(poolAdjacentViolators([1, 3, 2], [1, 1, 1])).toEqual([1, 2.5, 2.5]);
  expect(poolAdjacentViolators([3, 2, 1], [1, 2, 1])).toEqual([2, 2, 2]);
  expect(() => poolAdjacentViolators([1], [0])).toThrow('weight 0 must be above 0, got 0');
});

test('pooled values never fall, keep the weighted mean, and are their own pooling', () => {
  const list = fc.array(
    fc.tuple(fc.double({ min: -5, max: 5, noNaN: true }), fc.integer({ min: 1, max: 9 })),
    {
      minLength: 1,
      maxLength: 30,
    },
  );
  fc.assert(
    fc.property(list, (pairs) => {
      const values = pairs.map((p) => p[0]);
      const weights = pairs.map((p) => p[1]);
      const fitted = poolAdjacentViolators(values, weights);
      for (let i = 1; i < fitted.length; i++) expect(fitted[i]).toBeGreaterThanOrEqual(fitted[i - 1]);
      const total = (list: readonly number[]) => list.reduce((sum, v, i) => sum + v * weights[i], 0);
      expect(total(fitted)).toBeCloseTo(total(values), 8);
      expect(relativeMiss(poolAdjacentViolators(fitted, weights), fitted)).toBeLessThan(1e-9);
    }),
  );
});

const { hours, inspected, failed } = parametric.turbine;
const looks = hours.map((age, i) => ({ age, inspected: inspected[i], failed: failed[i] }));

test('turbine wheels (Nelson; R survival::turbine): exact pooling', () => {
  const survival = inspectionSurvival(looks).map((point) => point.survival);
  expect(relativeMiss(survival, nonparametric.turbinePooled.survival)).toBeLessThan(1e-12);
  expect(survival.slice(0, 8).map((s) => Math.round(s * 1e6) / 1e6)).toEqual([
    1, 0.930233, 0.930233, 0.90411, 0.833333, 0.777778, 0.777778, 0.538462,
  ]);
});

test('Turnbull on the turbine wheels reaches the likelihood of exact pooling', () => {
  const rows: LifetimeRows = {
    low: Float64Array.from([...hours.map(() => 0), ...hours]),
    high: Float64Array.from([...hours, ...hours.map(() => Infinity)]),
    weight: Float64Array.from([...failed, ...inspected.map((n, i) => n - failed[i])]),
  };
  const found = turnbull(rows);
  const exact = inspectionSurvival(looks).reduce((sum, { survival }, i) => {
    const down = failed[i] > 0 ? failed[i] * Math.log(1 - survival) : 0;
    return sum + down + (inspected[i] - failed[i]) * Math.log(survival);
  }, 0);
  expect(found.converged).toBe(true);
  expect(found.logLikelihood).toBeLessThanOrEqual(exact + 1e-9);
  expect(found.logLikelihood).toBeGreaterThan(exact - 1e-4);
  expect(found.masses.reduce((sum, m) => sum + m.probability, 0)).toBeCloseTo(1, 9);
});

test('Turnbull on cracks (Meeker and Escobar): one schedule, so the shares themselves', () => {
  const { days, failed: cracked, parts } = parametric.cracks;
  const rest = parts - cracked.reduce((a, b) => a + b, 0);
  const found = turnbull({
    low: Float64Array.from([0, ...days]),
    high: Float64Array.from([...days, Infinity]),
    weight: Float64Array.from([...cracked, rest]),
  });
  expect(
    relativeMiss(
      found.masses.map((m) => m.probability),
      [...cracked, rest].map((n) => n / parts),
    ),
  ).toBeLessThan(1e-9);
});

test('Turnbull on exact and right-censored times is Kaplan–Meier', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 1, max: 12 }), fc.boolean()), { minLength: 2, maxLength: 15 }),
      (list) => {
        const points = kaplanMeier(list.map(([time, event]) => ({ time, failed: event })));
        const found = turnbull({
          low: Float64Array.from(list, (r) => r[0]),
          high: Float64Array.from(list, (r) => (r[1] ? r[0] : Infinity)),
        });
        let survival = 1;
        for (const mass of found.masses.filter((m) => m.to < Infinity)) {
          survival -= mass.probability;
          expect(survival).toBeCloseTo(survivalAt(points, mass.to), 4);
        }
      },
    ),
  );
});
