import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cumulativeAlarmLimits, nearestRank } from '../../../models/oil/alarmLimits.ts';
import { metalRate } from '../../../models/oil/metalRate.ts';
import { trendRate } from '../../../models/oil/trendRate.ts';

const rule = {
  cautionShare: 0.9,
  alertShare: 0.95,
  condemnShare: 0.98,
  leastSamples: 30,
  trustedSamples: 100,
};
const hundred = Array.from({ length: 100 }, (_, i) => i + 1);
const absolute = { caution: 50, condemn: 100 };

describe('alarm limits (ASTM D7720, cumulative distribution, nearest rank)', () => {
  it('for 1..100 the 90 % value is 90', () => {
    expect(nearestRank(hundred, 0.9)).toBe(90);
    expect(nearestRank([...hundred].reverse(), 0.95)).toBe(95);
    expect(nearestRank([7], 0.01)).toBe(7);
    expect(nearestRank(hundred, 1)).toBe(100);
  });

  it('takes the three shares from 30 values on, is provisional below 100', () => {
    expect(cumulativeAlarmLimits(hundred, null, false, rule)).toEqual({
      caution: 90,
      alert: 95,
      condemn: 98,
      samples: 100,
      basis: 'cumulative',
      provisional: false,
    });
    expect(cumulativeAlarmLimits(hundred.slice(0, 30), null, false, rule)!.provisional).toBe(true);
  });

  it('with fewer than 30 values the absolute limits hold; none in a break-in population', () => {
    expect(cumulativeAlarmLimits([1, 2, 3], absolute, false, rule)).toMatchObject({
      caution: 50,
      condemn: 100,
      basis: 'absolute',
    });
    expect(cumulativeAlarmLimits([1, 2, 3], absolute, true, rule)).toBeNull();
    expect(cumulativeAlarmLimits([1, 2, 3], null, false, rule)).toBeNull();
  });

  it('are never looser than the absolute limits, but for break-in', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 500, noNaN: true }), { minLength: 30, maxLength: 200 }),
        (values) => {
          const limits = cumulativeAlarmLimits(values, absolute, false, rule)!;
          expect(limits.caution).toBeLessThanOrEqual(50);
          expect(limits.condemn).toBeLessThanOrEqual(100);
          expect(limits.caution).toBeLessThanOrEqual(limits.alert);
          expect(limits.alert).toBeLessThanOrEqual(limits.condemn);
          const breakIn = cumulativeAlarmLimits(values, absolute, true, rule)!;
          expect(breakIn.condemn).toBe(nearestRank(values, 0.98));
          expect(cumulativeAlarmLimits([...values].reverse(), absolute, false, rule)).toEqual(limits);
        },
      ),
      { numRuns: 100, seed: 8 },
    );
  });

  it('refuses no values and shares outside (0, 1]', () => {
    expect(() => nearestRank([], 0.9)).toThrow('values must not be empty, got none');
    expect(() => nearestRank([1], 0)).toThrow('share must be above 0 and up to 1, got 0');
  });
});

describe('wear metals per distance', () => {
  it('corrects for make-up oil and fresh oil (worked by hand)', () => {
    expect(metalRate(40, 8000, 1, 5)).toEqual({ correctedPpm: 48, ppmPer1000Km: 6 });
    expect(metalRate(40, 8000, 0, 5, 8).ppmPer1000Km).toBe(4);
    expect(metalRate(40, null, 0, 5).ppmPer1000Km).toBeNull();
    expect(() => metalRate(40, 8000, 0, 0)).toThrow('sumpLiters must be above 0, got 0');
  });
});

describe('trend rate (in the manner of ASTM D7669)', () => {
  it('between the last two and over all (worked by hand)', () => {
    const points = [
      { use: 2000, value: 10 },
      { use: 4000, value: 18 },
      { use: 6000, value: 30 },
    ];
    const trend = trendRate(points, 50);
    expect(trend.latest).toBeCloseTo(0.006, 12);
    expect(trend.mean).toBeCloseTo(0.005, 12);
    expect(trend.useToLimit).toBeCloseTo(20 / 0.006, 6);
    expect(trendRate([...points].reverse(), 50)).toEqual(trend);
  });
  it('moving away from the limit never reaches it; falling values reach a lower limit', () => {
    const falling = [
      { use: 0, value: 8 },
      { use: 4000, value: 5 },
    ];
    expect(trendRate(falling, 50).useToLimit).toBeNull();
    expect(trendRate(falling, 3.2).useToLimit).toBeCloseTo(2400, 6);
    expect(trendRate(falling, null).useToLimit).toBeNull();
  });
  it('refuses a single point', () => {
    expect(() => trendRate([{ use: 1, value: 2 }], null)).toThrow(
      'points must hold two with different use, got 1',
    );
  });
});
