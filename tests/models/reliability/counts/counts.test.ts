import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  countMean,
  countQuantile,
  countTailMean,
  countVariance,
} from '../../../../models/reliability/counts/countSummary.ts';
import { mixCounts, poissonBinomial } from '../../../../models/reliability/counts/poissonBinomial.ts';
import { reference, relativeMiss } from '../reference.ts';

fc.configureGlobal({ seed: 20260331 });

const golden = reference.functions.poissonBinomial;

test('twelve units: mean 1.75, variance 1.3379, quantiles 2 3 3 4, mean of the worst tenth 3.896640', () => {
  const pmf = poissonBinomial(golden.chance);
  expect(relativeMiss(pmf, golden.pmf)).toBeLessThan(1e-12);
  expect(countMean(pmf)).toBeCloseTo(1.75, 12);
  expect(countVariance(pmf)).toBeCloseTo(1.3379, 12);
  expect([0.5, 0.8, 0.9, 0.95].map((level) => countQuantile(pmf, level))).toEqual([2, 3, 3, 4]);
  expect(countTailMean(pmf, 0.9)).toBeCloseTo(3.89664, 6);
});

test('worked by hand: two coins, and their mixture with a sure pair', () => {
  expect([...poissonBinomial([0.5, 0.5])]).toEqual([0.25, 0.5, 0.25]);
  expect([...mixCounts([poissonBinomial([0.5, 0.5]), poissonBinomial([1, 1])])]).toEqual([
    0.125, 0.25, 0.625,
  ]);
  expect([...poissonBinomial([])]).toEqual([1]);
  expect(countTailMean([0.5, 0.5], 0)).toBe(0.5);
  expect(() => poissonBinomial([1.5])).toThrow('chance 0 must lie from 0 to 1, got 1.5');
  expect(() => countQuantile([1], 0)).toThrow('level must lie above 0 and up to 1, got 0');
});

test('moments of any fleet: mean Σp, variance Σp(1−p), total 1', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 400 }), (chances) => {
      const pmf = poissonBinomial(chances);
      expect(pmf.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 10);
      expect(countMean(pmf)).toBeCloseTo(
        chances.reduce((a, p) => a + p, 0),
        8,
      );
      expect(countVariance(pmf)).toBeCloseTo(
        chances.reduce((a, p) => a + p * (1 - p), 0),
        7,
      );
    }),
  );
});

test('10 000 units keep their moments although the far ends are let go', () => {
  const chances = Float64Array.from({ length: 10_000 }, (_, i) => 0.001 + 0.0001 * (i % 500));
  const pmf = poissonBinomial(chances);
  expect(countMean(pmf)).toBeCloseTo(
    chances.reduce((a, b) => a + b, 0),
    7,
  );
});
