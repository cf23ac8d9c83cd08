import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { policyTrial, type TrialInputs, type TrialUnit } from '../../../models/decisions/policyTrial.ts';
import { seededRandom } from '../../../models/numeric/random.ts';
import { riskOf } from '../../../models/decisions/risk.ts';

const daysPerMonth = 365.25 / 12;
const rhythm = (firstMonths: number, everyMonths: number) => ({
  firstDays: firstMonths * daysPerMonth,
  everyDays: everyMonths * daysPerMonth,
  byUse: true,
});
const unit = (over: Partial<TrialUnit> = {}): TrialUnit => ({
  failing: null,
  now: rhythm(0, 1),
  then: rhythm(0, 2),
  lifeRatio: () => 1,
  changeCents: 5000,
  useLogSd: 0,
  ...over,
});
const trial = (units: readonly TrialUnit[], over: Partial<TrialInputs> = {}) =>
  policyTrial({
    units,
    months: 12,
    draws: 4000,
    monthlyRate: 0,
    fleetUseLogSd: 0,
    failureLogSd: 0,
    random: seededRandom(3),
    ...over,
  });
const failing = (shape: number, scale: number, age: number) => ({
  risk: riskOf({
    kind: 'wear',
    parts: [{ shape: [shape], scale: [scale], age: [age] }],
    usePerMonth: [1],
  }),
  months: 12,
  failureCents: 100_000,
  coveredMonths: 0,
  coveredCents: 0,
});

describe('a policy tried on a fleet', () => {
  it('worked by hand: a change each month against one every second month, nothing uncertain', () => {
    const { now, then, savingCents, chanceOfLoss } = trial([unit(), unit()], { draws: 10 });
    // two units: 24 changes a year against 12, at 50.00 each
    expect(now.changesPerMonth).toEqual({ low: 2, mid: 2, high: 2 });
    expect(then.changesPerMonth.mid).toBe(1);
    expect(then.byMonth.map(({ mid }) => mid)).toEqual([2, 0, 2, 0, 2, 0, 2, 0, 2, 0, 2, 0]);
    expect(savingCents).toEqual({ low: 60_000, mid: 60_000, high: 60_000 });
    expect(chanceOfLoss).toBe(0);
  });
  it('matches the Weibull distribution: half the life used a month halves the age gained', () => {
    // new part, shape 2, scale 20 months: within 12 months 1 − e^−(12/20)² = .3023; at half pace 1 − e^−(6/20)² = .0861
    // source: Weibull distribution, NIST/SEMATECH e-Handbook 8.1.6.2
    const { now, then, failuresAvoided } = trial(
      [unit({ failing: failing(2, 20, 0), now: rhythm(0, 1), then: rhythm(0, 1), lifeRatio: () => 0.5 })],
      { draws: 20_000 },
    );
    expect(Math.abs(now.failures.mid - (1 - Math.exp(-0.36)))).toBeLessThan(0.012);
    expect(Math.abs(then.failures.mid - (1 - Math.exp(-0.09)))).toBeLessThan(0.008);
    expect(failuresAvoided.mid).toBeCloseTo(now.failures.mid - then.failures.mid, 9);
    expect(then.failureCents.mid).toBeCloseTo(100_000 * then.failures.mid, 3);
  });
  it('the same rhythm and the same life changes nothing, whatever is uncertain', () => {
    fc.assert(
      fc.property(
        fc.record({
          every: fc.double({ min: 0.2, max: 20, noNaN: true }),
          first: fc.double({ min: 0, max: 5, noNaN: true }),
          age: fc.double({ min: 0, max: 80, noNaN: true }),
          spread: fc.double({ min: 0, max: 0.5, noNaN: true }),
        }),
        ({ every, first, age, spread }) => {
          const same = rhythm(first, every);
          const { now, then, savingCents, chanceOfLoss } = trial(
            [unit({ failing: failing(2, 30, age), now: same, then: same, useLogSd: spread })],
            { draws: 200, fleetUseLogSd: 0.1, failureLogSd: 0.4, monthlyRate: 0.004 },
          );
          expect(then).toEqual(now);
          expect(savingCents).toEqual({ low: 0, mid: 0, high: 0 });
          expect(chanceOfLoss).toBe(0);
        },
      ),
      { seed: 5, numRuns: 20 },
    );
  });
  it('wearing faster never brings fewer failures in any draw, and a unit that leaves early is changed until then', () => {
    const old = { ...failing(3, 40, 30), months: 3 };
    const { now, then, failuresAvoided } = trial([unit({ failing: old, lifeRatio: () => 1.4 })]);
    expect(failuresAvoided.high).toBeLessThanOrEqual(0);
    expect(then.failures.mid).toBeGreaterThan(now.failures.mid);
    expect(now.changeCents.mid).toBe(3 * 5000);
    expect(now.byMonth[3]).toEqual({ low: 0, mid: 0, high: 0 });
  });
  it('refuses nonsense', () => {
    expect(() => trial([unit({ now: rhythm(0, 0) })])).toThrow('a rhythm must be above 0, got 0 days');
    expect(() => trial([unit()], { draws: 0 })).toThrow('draws must be a whole number from 1, got 0');
  });
});
