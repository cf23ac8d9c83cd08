import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestRenewalAge, renewalCostRate } from '../../../models/decisions/ageReplacement.ts';
import { bestDiscountedAge } from '../../../models/decisions/discountedReplacement.ts';
import { uniformLife, weibullLife } from '../../../models/decisions/lifetime.ts';
import { reference, relativeDifference } from './reference.ts';

describe('lifetimes', () => {
  it('worked by hand', () => {
    const life = weibullLife(2, 10);
    expect(life.survival(10)).toBeCloseTo(Math.exp(-1), 15);
    expect(life.hazard(5)).toBeCloseTo(0.1, 15);
    expect(life.quantile(1 - Math.exp(-1))).toBeCloseTo(10, 12);
    expect(life.mean).toBeCloseTo(10 * (Math.sqrt(Math.PI) / 2), 12);
    expect(uniformLife(40000)).toMatchObject({ mean: 20000, wearsOut: true });
    expect(uniformLife(4).hazard(4)).toBe(Infinity);
  });
  it('refuses impossible values', () => {
    expect(() => weibullLife(-1, 2)).toThrow('shape must be above 0, got -1');
    expect(() => weibullLife(1, 0)).toThrow('scale must be above 0, got 0');
    expect(() => uniformLife(Number.NaN)).toThrow('longest must be above 0, got NaN');
  });
});

describe('age replacement', () => {
  it('worked by hand: even life of 40 000 km at 20 000 km costs (50 + 100) / 15 000', () => {
    expect(renewalCostRate(uniformLife(40000), 20000, 100, 200)).toBeCloseTo(0.01, 12);
  });
  it.each(reference.ageReplacement)('matches brute force for %j', ({ shape, failure, age, rate, share }) => {
    const best = bestRenewalAge(weibullLife(shape, 1), 1, failure);
    expect(Math.abs(best.age! - age)).toBeLessThan(1e-6);
    expect(relativeDifference(best.centsPerUnit, rate)).toBeLessThan(1e-8);
    expect(relativeDifference(best.costShare, share)).toBeLessThan(1e-8);
    // the optimum condition of Barlow & Hunter: (failure − planned)·h(T) = C(T)
    const condition = (failure - 1) * weibullLife(shape, 1).hazard(best.age!);
    expect(relativeDifference(condition, best.centsPerUnit)).toBeLessThan(1e-7);
  });
  it('gives the printed table value for Weibull 2.5, 1000, costs 1 and 5', () => {
    const best = bestRenewalAge(weibullLife(2.5, 1000), 1, 5);
    expect(best.age!.toFixed(4)).toBe('493.0470');
    expect(best.centsPerUnit.toFixed(11)).toBe('0.00346204274');
    expect(best.chanceFailsBefore).toBeCloseTo(0.15692, 5);
  });
  it('matches Jardine & Tsang for an even life', () => {
    const life = uniformLife(40000);
    for (const [age, rate] of Object.entries(reference.published.jardineTsang.rateByAge))
      expect(renewalCostRate(life, Number(age), 100, 200)).toBeCloseTo(rate, 4);
    const best = bestRenewalAge(life, 100, 200);
    expect(best.age).toBeCloseTo(29282.032, 2);
    expect(best.centsPerUnit).toBeCloseTo(0.00933013, 8);
  });
  it('matches the published hydraulic seals', () => {
    const seals = reference.published.hydraulicSeals;
    const best = bestRenewalAge(weibullLife(seals.shape, seals.scaleHours), 1, seals.failureOverPlanned);
    expect(best.age! / seals.scaleHours).toBeCloseTo(seals.ageShare, 2);
    expect(best.costShare).toBeCloseTo(seals.costShare, 2);
    expect(Math.abs(best.age! - seals.ageHours)).toBeLessThan(20);
  });
  it('has no best age without wear-out or without a dearer failure, and says why', () => {
    const even = bestRenewalAge(weibullLife(1, 0.5), 1, 5);
    expect(even).toMatchObject({ age: null, costShare: 1 });
    expect(even.centsPerUnit).toBeCloseTo(10, 12);
    expect(bestRenewalAge(weibullLife(0.8, 100), 1, 5).notes[0]).toContain('does not grow with age');
    expect(bestRenewalAge(weibullLife(3, 100), 500, 400).notes[0]).toContain('costs as much as a failure');
    expect(bestRenewalAge(weibullLife(1.02, 100), 100, 101).notes[0]).toContain('beyond nearly every life');
    expect(() => bestRenewalAge(weibullLife(2, 1), -1, 5)).toThrow('plannedCents must be above 0, got -1');
    expect(() => bestRenewalAge(weibullLife(2, 1), 1, Number.NaN)).toThrow('failureCents must be 0 or above');
    expect(() => renewalCostRate(weibullLife(2, 1), 0, 1, 5)).toThrow('age must be above 0, got 0');
  });
  it('is never beaten by another age and never dearer than running to failure', () => {
    const shape = fc.double({ min: 0.5, max: 6, noNaN: true });
    const ratio = fc.double({ min: 0.2, max: 40, noNaN: true });
    const other = fc.double({ min: 0.05, max: 3, noNaN: true });
    fc.assert(
      fc.property(shape, ratio, other, (beta, failure, age) => {
        const life = weibullLife(beta, 1);
        const best = bestRenewalAge(life, 1, failure);
        expect(best.centsPerUnit).toBeLessThanOrEqual(renewalCostRate(life, age, 1, failure) * (1 + 1e-5));
        expect(best.costShare).toBeLessThanOrEqual(1 + 1e-9);
      }),
      { seed: 11, numRuns: 60 },
    );
  });
});

describe('discounted age replacement', () => {
  it.each(Object.entries(reference.discounted))('matches brute force at rate %s', (rate, expected) => {
    const best = bestDiscountedAge(weibullLife(2.5, 8), 900, 4500, Number(rate));
    expect(Math.abs(best.age! - expected.age)).toBeLessThan(1e-4);
    expect(relativeDifference(best.presentCents!, expected.present)).toBeLessThan(1e-6);
  });
  it('gives the printed values at 5 % and tends to the undiscounted age', () => {
    const best = bestDiscountedAge(weibullLife(2.5, 8), 900, 4500, 0.05);
    expect(best.age!.toFixed(4)).toBe('4.0589');
    expect(best.presentCents!.toFixed(4)).toBe('7231.3124');
    expect(bestDiscountedAge(weibullLife(2.5, 8), 900, 4500, 0).age).toBeCloseTo(3.9444, 4);
  });
  it('takes a rate below 0 as 0, with words', () => {
    const best = bestDiscountedAge(weibullLife(2.5, 8), 900, 4500, -0.02);
    expect(best.age).toBeCloseTo(3.9444, 4);
    expect(best.notes).toEqual(['a discount rate below 0 (-0.02) is taken as 0']);
    expect(bestDiscountedAge(weibullLife(2.5, 8), 900, 600, 0.05)).toMatchObject({ age: null });
    expect(() => bestDiscountedAge(weibullLife(2.5, 8), 900, 600, Number.NaN)).toThrow('ratePerUnit');
  });
  it('renews later the more later money is discounted', () => {
    const rate = fc.double({ min: 0.001, max: 0.3, noNaN: true });
    fc.assert(
      fc.property(rate, rate, (a, b) => {
        const [slow, fast] = [Math.min(a, b), Math.max(a, b)];
        const life = weibullLife(2.2, 6);
        const early = bestDiscountedAge(life, 100, 700, slow).age!;
        expect(bestDiscountedAge(life, 100, 700, fast).age!).toBeGreaterThanOrEqual(early - 1e-9);
      }),
      { seed: 12, numRuns: 30 },
    );
  });
});
