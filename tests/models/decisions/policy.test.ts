import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestDrainInterval, drainCost, type DrainCosts } from '../../../models/decisions/drainInterval.ts';
import { policyCase, type DutyInputs } from '../../../models/decisions/policyCase.ts';
import { coefficients } from './catalog.ts';

/** Wear that grows in proportion to the interval: the cheapest is √(change ÷ (renewal·slope)). */
const oil = (over: Partial<DrainCosts> = {}): DrainCosts => ({
  oilCents: 6000,
  labourCents: 2500,
  downtimeCents: 500,
  renewalCents: 400_000,
  lifeSharePerKm: (intervalKm) => 1e-6 * (intervalKm / 10_000),
  draws: 1,
  ...over,
});
const duty: DutyInputs = {
  duty: 'delivery',
  currentIntervalKm: 8000,
  bookIntervalKm: 16000,
  beyondBookApproved: false,
  oil: oil(),
};

describe('cost of an interval', () => {
  it('worked by hand: 9 000 cents every 10 000 km and 400 000·1e-6 per km', () => {
    expect(drainCost(oil(), 10_000)).toEqual({
      intervalKm: 10_000,
      centsPer1000Km: 1300,
      changeCentsPer1000Km: 900,
      wearCentsPer1000Km: 400,
    });
  });
  it('has its least at √(9 000 ÷ (400 000·1e-10)) = 15 000 km', () => {
    const optimum = bestDrainInterval(oil(), 3000, 40_000, 0.02);
    expect(Math.abs(optimum.best.intervalKm - 15_000)).toBeLessThan(5);
    expect(optimum.best.centsPer1000Km).toBeCloseTo(1200, 4);
    // (x + 1/x)/2 = 1.02 at x = 1.02 ± √(1.02² − 1)
    expect(optimum.flatFromKm / 15_000).toBeCloseTo(1.02 - Math.sqrt(1.02 ** 2 - 1), 2);
    expect(optimum.flatToKm / 15_000).toBeCloseTo(1.02 + Math.sqrt(1.02 ** 2 - 1), 2);
    expect(optimum.curve).toHaveLength(121);
    expect(optimum.notes).toEqual([]);
  });
  it('gives a range when wear is uncertain', () => {
    const slopes = [0.5, 1, 2];
    const uncertain = oil({
      draws: 3,
      lifeSharePerKm: (intervalKm, draw) => 1e-6 * slopes[draw]! * (intervalKm / 10_000),
    });
    const { bestRangeKm } = bestDrainInterval(uncertain, 3000, 60_000, 0.02);
    expect(bestRangeKm.low).toBeLessThan(13_000);
    expect(bestRangeKm.high).toBeGreaterThan(18_000);
  });
  it('says when the least lies at the edge and refuses nonsense', () => {
    expect(bestDrainInterval(oil({ renewalCents: 0 }), 3000, 20_000, 0.02).notes[0]).toContain('edge');
    expect(() => bestDrainInterval(oil(), 0, 10, 0.02)).toThrow(
      'intervals must rise from above 0, got 0 to 10',
    );
    expect(() => bestDrainInterval(oil({ oilCents: -1 }), 1, 10, 0.02)).toThrow(
      'oilCents must be 0 or above, got -1',
    );
    expect(() => bestDrainInterval(oil({ draws: 0 }), 1, 10, 0.02)).toThrow(
      'draws must be a whole number from 1',
    );
    const broken = oil({ lifeSharePerKm: () => Number.NaN });
    expect(() => bestDrainInterval(broken, 1, 10, 0.02)).toThrow(
      'lifeSharePerKm at 1 km must be 0 or above, got NaN',
    );
    expect(() => drainCost(oil(), -5)).toThrow('intervalKm must be above 0, got -5');
  });
  it('is never beaten by another interval in the range', () => {
    const positive = fc.double({ min: 0.1, max: 10, noNaN: true });
    const other = fc.double({ min: 3000, max: 40_000, noNaN: true });
    fc.assert(
      fc.property(positive, positive, other, (steep, power, intervalKm) => {
        const costs = oil({ lifeSharePerKm: (km) => 1e-6 * steep * (km / 10_000) ** power });
        const { best } = bestDrainInterval(costs, 3000, 40_000, 0.02);
        expect(best.centsPer1000Km).toBeLessThanOrEqual(drainCost(costs, intervalKm).centsPer1000Km * 1.001);
      }),
      { seed: 51, numRuns: 60 },
    );
  });
});

describe('the policy', () => {
  it('gives whole kilometres and cents by duty', () => {
    const [policy] = policyCase([duty], coefficients).duties;
    expect(policy).toMatchObject({
      duty: 'delivery',
      currentIntervalKm: 8000,
      flatFromKm: expect.any(Number),
    });
    expect(Math.abs(policy!.bestIntervalKm - 15_000)).toBeLessThan(5);
    // 1000·9000/8000 + 1000·400 000·.8e-6 = 1125 + 320
    expect(policy!.centsPer1000Km).toEqual({ current: 1445, best: 1200, recommended: 1200 });
    expect(policy!.flatFromKm).toBeLessThan(policy!.bestIntervalKm);
    expect(policy!.flatToKm).toBeGreaterThan(policy!.bestIntervalKm);
  });
  it('never sets an interval beyond the book without approval', () => {
    const [held] = policyCase([{ ...duty, bookIntervalKm: 12_000 }], coefficients).duties;
    expect(held!.recommendedIntervalKm).toBe(12_000);
    expect(held!.notes[0]).toContain('beyond the book (12000 km)');
    const [free] = policyCase(
      [{ ...duty, bookIntervalKm: 12_000, beyondBookApproved: true }],
      coefficients,
    ).duties;
    expect(free!.recommendedIntervalKm).toBe(free!.bestIntervalKm);
  });
  it('leaves an interval alone that lies on the flat part, and says what is not known', () => {
    const [flat] = policyCase([{ ...duty, currentIntervalKm: 14_500 }], coefficients).duties;
    expect(flat!.notes).toContain("today's interval lies within 2 % of the cheapest: leave it");
    const [blank] = policyCase(
      [{ ...duty, currentIntervalKm: null, bookIntervalKm: null }],
      coefficients,
    ).duties;
    expect(blank!.centsPer1000Km.current).toBeNull();
    expect(blank!.notes).toHaveLength(2);
  });
  it('says what another service category changes', () => {
    const better = oil({ oilCents: 9000, lifeSharePerKm: (km) => 0.5e-6 * (km / 10_000) });
    const [policy] = policyCase(
      [{ ...duty, categories: [{ category: 'better', oil: better }] }],
      coefficients,
    ).duties;
    // √(12 000 ÷ (400 000·.5e-10)) = 24 495 km at 2·√(12 000·400 000·.5e-10)·1000 = 980
    expect(Math.abs(policy!.categories[0]!.bestIntervalKm - 24_495)).toBeLessThan(10);
    expect(policy!.categories[0]).toMatchObject({
      centsPer1000Km: { current: 1660, best: 980 },
      savingCentsPer1000Km: 220,
    });
  });
});
