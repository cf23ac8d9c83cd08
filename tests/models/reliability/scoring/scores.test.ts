import fc from 'fast-check';
import { expect, test } from 'vitest';
import { FitRefused } from '../../../../models/reliability/fit/fitRefused.ts';
import { areaUnderCurve } from '../../../../models/reliability/scoring/areaUnderCurve.ts';
import { brierScore, logScore } from '../../../../models/reliability/scoring/binaryScores.ts';
import type { Scored } from '../../../../models/reliability/scoring/binaryScores.ts';
import { calibrationSlope } from '../../../../models/reliability/scoring/calibrationSlope.ts';
import { observedOverExpected } from '../../../../models/reliability/scoring/observedOverExpected.ts';
import { reference } from '../reference.ts';

fc.configureGlobal({ seed: 20260331 });

const { binary } = reference.accuracy;
const scored: Scored[] = binary.probability.map((probability, i) => ({
  probability,
  outcome: binary.outcome[i] === 1 ? 1 : 0,
}));

test('area, Brier, log score and calibration against R wilcox.test and glm, DeLong error', () => {
  const area = areaUnderCurve(binary.score, binary.outcome)!;
  expect(area.auc).toBeCloseTo(binary.auc, 12);
  expect(area.se).toBeCloseTo(binary.aucSe, 12);
  expect(brierScore(scored)).toBeCloseTo(binary.brier, 12);
  expect(logScore(scored)).toBeCloseTo(binary.logScore, 12);
  const line = calibrationSlope(scored);
  expect(line.slope).toBeCloseTo(binary.slope, 7);
  expect(line.intercept).toBeCloseTo(binary.intercept, 7);
  expect(line.slopeSe).toBeCloseTo(binary.slopeSe, 6);
});

test('worked by hand: area of four units, Brier and log score of two', () => {
  expect(areaUnderCurve([1, 2, 3, 4], [0, 1, 0, 1])!.auc).toBe(0.75);
  expect(areaUnderCurve([1, 1, 1, 1], [0, 1, 0, 1])!.auc).toBe(0.5);
  const two: Scored[] = [
    { probability: 0.5, outcome: 1 },
    { probability: 0.25, outcome: 0 },
  ];
  expect(brierScore(two)).toBe((0.25 + 0.0625) / 2);
  expect(logScore(two)).toBeCloseTo((Math.log(2) - Math.log(0.75)) / 2, 14);
});

test('certain and wrong stays finite; too few of one outcome gives no area; one outcome gives no slope', () => {
  expect(Number.isFinite(logScore([{ probability: 0, outcome: 1 }]))).toBe(true);
  expect(areaUnderCurve([1, 2, 3], [0, 0, 1])).toBeNull();
  expect(() => calibrationSlope([{ probability: 0.2, outcome: 0 }])).toThrow(FitRefused);
  const flat: Scored[] = [0, 1, 0].map((y) => ({ probability: 0.2, outcome: y === 1 ? 1 : 0 }));
  expect(() => calibrationSlope(flat)).toThrow('all chances are alike');
  const apart: Scored[] = [0.1, 0.2, 0.8, 0.9].map((p) => ({ probability: p, outcome: p > 0.5 ? 1 : 0 }));
  expect(() => calibrationSlope(apart)).toThrow('separate');
  expect(() => brierScore([])).toThrow('scored must hold at least one prediction, got 0');
});

test('exact Poisson factors (Garwood 1936): 3 → .21–2.92, 5 → .33–2.33, 10 → .48–1.84, 20 → .61–1.54, 50 → .74–1.32, 100 → .81–1.22', () => {
  const { events, low, high } = reference.functions.poissonRatio;
  const printed = ['0.21–2.92', '0.32–2.33', '0.48–1.84', '0.61–1.54', '0.74–1.32', '0.81–1.22'];
  events.forEach((count, i) => {
    const ratio = observedOverExpected(count, count);
    expect(ratio.low).toBeCloseTo(low[i], 10);
    expect(ratio.high).toBeCloseTo(high[i], 10);
    expect(`${ratio.low.toFixed(2)}–${ratio.high.toFixed(2)}`).toBe(printed[i]);
  });
  expect(observedOverExpected(0, 2)).toMatchObject({
    ratio: 0,
    low: 0,
    high: expect.closeTo(-Math.log(0.025) / 2, 10),
  });
  expect(() => observedOverExpected(1, 0)).toThrow('expected must be above 0, got 0');
  expect(() => observedOverExpected(-1, 1)).toThrow('observed must be 0 or above, got -1');
  expect(observedOverExpected(3.5, 4).low).toBeGreaterThan(observedOverExpected(3, 4).low);
});

test('area is untouched by any rising transformation, and turned scores give its complement', () => {
  const list = fc.array(fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: 0, max: 1 })), {
    minLength: 4,
    maxLength: 40,
  });
  fc.assert(
    fc.property(list, (pairs) => {
      const score = pairs.map((p) => p[0]);
      const outcome = pairs.map((p) => p[1]);
      const area = areaUnderCurve(score, outcome);
      fc.pre(area !== null);
      const other = areaUnderCurve(
        score.map((s) => Math.exp(s / 5)),
        outcome,
      )!;
      expect(other).toEqual(area);
      expect(
        areaUnderCurve(
          score.map((s) => -s),
          outcome,
        )!.auc,
      ).toBeCloseTo(1 - area!.auc, 12);
      expect(area!.low).toBeGreaterThanOrEqual(0);
      expect(area!.high).toBeLessThanOrEqual(1);
    }),
  );
});

test('any chances and outcomes: a finite slope or a refusal', () => {
  const chance = fc.oneof(fc.constantFrom(0, 1, 0.5), fc.double({ min: 0, max: 1, noNaN: true }));
  fc.assert(
    fc.property(fc.array(fc.tuple(chance, fc.boolean()), { minLength: 1, maxLength: 30 }), (pairs) => {
      try {
        const line = calibrationSlope(pairs.map(([probability, y]) => ({ probability, outcome: y ? 1 : 0 })));
        expect([line.slope, line.intercept, line.slopeSe].every(Number.isFinite)).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(FitRefused);
      }
    }),
  );
});
