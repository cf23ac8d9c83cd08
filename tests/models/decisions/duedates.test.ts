import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dueDateDistribution, dueDateMixture, type DueClock } from '../../../models/decisions/duedates.ts';
import { normalCdf, normalQuantile } from '../../../models/numeric/normal.ts';
import { gaussLegendre, integrate } from '../../../models/numeric/quadrature.ts';
import { dayFromIso } from '../../../models/schema/day.ts';

const asOfDay = dayFromIso('2026-03-31');
const clock = (over: Partial<DueClock>): DueClock => ({
  name: 'base_number',
  used: 5000,
  remaining: 3000,
  limitLogSd: 0,
  perDay: 60,
  perDayLogSd: 0,
  ...over,
});

describe('normal distribution', () => {
  it('agrees with published values', () => {
    // Abramowitz & Stegun, table 26.1 and 26.2
    expect(normalCdf(1)).toBeCloseTo(0.8413447460685429, 14);
    expect(normalCdf(-3)).toBeCloseTo(0.0013498980316301, 15);
    expect(normalCdf(-8) / 6.220960574271785e-16).toBeCloseTo(1, 8);
    expect(normalQuantile(0.9)).toBeCloseTo(1.2815515655446004, 14);
    expect(normalQuantile(0.001)).toBeCloseTo(-3.090232306167813, 13);
    expect(normalQuantile(1e-12)).toBeCloseTo(-7.034483825301132, 11);
    expect(() => normalQuantile(0)).toThrow('probability must lie between 0 and 1, got 0');
  });
  it('quantile and distribution undo each other', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), (p) => {
        expect(Math.abs(normalCdf(normalQuantile(p)) - p)).toBeLessThan(1e-13);
      }),
      { seed: 1 },
    );
  });
});

describe('quadrature', () => {
  it('has the nodes of Abramowitz & Stegun table 25.4', () => {
    const two = gaussLegendre(2);
    expect(two.nodes[0]).toBeCloseTo(0.5773502691896257, 14);
    expect(two.weights[1]).toBeCloseTo(1, 14);
    const five = gaussLegendre(5);
    expect(five.nodes[0]).toBeCloseTo(0.906179845938664, 14);
    expect(five.weights[0]).toBeCloseTo(0.236926885056189, 14);
    expect(integrate(Math.exp, 0, 1)).toBeCloseTo(Math.E - 1, 14);
    expect(() => gaussLegendre(0)).toThrow('points must be a whole number from 1, got 0');
  });
});

describe('due dates', () => {
  it('worked by hand: nothing uncertain, 3 000 km at 60 km a day is 50 days', () => {
    const due = dueDateDistribution([clock({})], asOfDay);
    expect(due.dueOn).toBe('2026-05-20');
    expect([due.earliestOn, due.latestOn]).toEqual(['2026-05-20', '2026-05-20']);
    expect(due.weeklyProbability.map((p) => Math.round(p))).toEqual([0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0]);
    expect(due.chancePastNow).toBe(0);
    expect(due.governing).toBe('base_number');
  });
  it('worked by hand: 600 km past at 60 km a day fell due 10 days ago', () => {
    const due = dueDateDistribution([clock({ used: 8600, remaining: -600 })], asOfDay);
    expect(due.dueOn).toBe('2026-03-21');
    expect(due.chancePastNow).toBe(1);
    expect(due.laterProbability).toBe(0);
  });
  it('two accounts of the past, by hand: 0.3 past since 10 days, 0.7 due in 50 days', () => {
    const past = clock({ used: 8600, remaining: -600 });
    const due = dueDateMixture(
      [
        { chance: 0.3, clocks: [past] },
        { chance: 0.7, clocks: [clock({})] },
      ],
      asOfDay,
    );
    expect(due.chancePastNow).toBeCloseTo(0.3, 12);
    expect([due.earliestOn, due.dueOn, due.latestOn]).toEqual(['2026-03-21', '2026-05-20', '2026-05-20']);
    expect(due.weeklyProbability[7]).toBeCloseTo(0.7, 12);
    expect(() => dueDateMixture([{ chance: 0.5, clocks: [past] }], asOfDay)).toThrow(
      'chance of all cases must sum to 1, got 0.5',
    );
  });
  it('has the log-normal closed form when only the use is uncertain', () => {
    // days = remaining / use, so the q-quantile is 50·exp(0.3·z_q)
    const due = dueDateDistribution([clock({ perDayLogSd: 0.3 })], asOfDay);
    expect(due.earliestDay).toBe(asOfDay + Math.floor(50 * Math.exp(-0.3 * 1.2815515655)));
    expect(due.latestDay).toBe(asOfDay + Math.floor(50 * Math.exp(0.3 * 1.2815515655)));
    expect(due.weeklyProbability[6]).toBeCloseTo(
      normalCdf(Math.log(49 / 50) / 0.3) - normalCdf(Math.log(42 / 50) / 0.3),
      8,
    );
  });
  it('has the closed form when nothing is used yet: the two spreads add as squares', () => {
    const due = dueDateDistribution(
      [clock({ used: 0, remaining: 3000, limitLogSd: 0.02, perDayLogSd: 0.4 })],
      asOfDay,
    );
    const sd = Math.hypot(0.02, 0.4);
    expect(due.weeklyProbability[2]).toBeCloseTo(
      normalCdf(Math.log(21 / 50) / sd) - normalCdf(Math.log(14 / 50) / sd),
      7,
    );
  });
  it('gives the chance of being past now from the limit alone', () => {
    const due = dueDateDistribution([clock({ limitLogSd: 0.2, perDayLogSd: 0.5 })], asOfDay);
    expect(due.chancePastNow).toBeCloseTo(normalCdf(Math.log(5000 / 8000) / 0.2), 12);
  });
  it('agrees with plain simulation for three clocks with a common use factor', () => {
    const clocks = [
      clock({ limitLogSd: 0.25, perDayLogSd: 0.3 }),
      clock({ name: 'hours', used: 120, remaining: 90, limitLogSd: 0, perDay: 1.7, perDayLogSd: 0.3 }),
      clock({ name: 'calendar', used: 300, remaining: 65, perDay: 1 }),
    ];
    const due = dueDateDistribution(clocks, asOfDay);
    const points = 400;
    let early = 0;
    for (let i = 0; i < points; i++)
      for (let j = 0; j < points; j++) {
        const use = Math.exp(0.3 * normalQuantile((i + 0.5) / points));
        const limit = 8000 * Math.exp(0.25 * normalQuantile((j + 0.5) / points));
        if (Math.min((limit - 5000) / (60 * use), 90 / (1.7 * use), 65) <= 35) early++;
      }
    const weeks = due.chancePastNow + due.weeklyProbability.slice(0, 5).reduce((a, b) => a + b, 0);
    expect(weeks).toBeCloseTo(early / points ** 2, 2);
    expect(due.latestDay).toBeLessThanOrEqual(asOfDay + 65);
  });
  it('says so when no limit runs or the date is out of sight', () => {
    expect(dueDateDistribution([clock({ perDay: 0 })], asOfDay)).toMatchObject({
      dueOn: null,
      laterProbability: 1,
      reasons: ['no limit is running down: use per day is not known or is nil'],
    });
    expect(dueDateDistribution([clock({ remaining: 1e9 })], asOfDay).reasons[0]).toContain('ten years');
    expect(() => dueDateDistribution([clock({ perDay: -1 })], asOfDay)).toThrow(
      'base_number.perDay must be 0 or above, got -1',
    );
    expect(() => dueDateDistribution([clock({ remaining: Number.NaN })], asOfDay)).toThrow('remaining');
  });
  it('always adds up to one, in order, without NaN', () => {
    const anyClock = fc.record({
      name: fc.constant('a'),
      used: fc.double({ min: 0, max: 20000, noNaN: true }),
      remaining: fc.double({ min: -9000, max: 30000, noNaN: true }),
      limitLogSd: fc.constantFrom(0, 0.01, 0.2, 0.6),
      perDay: fc.double({ min: 0, max: 900, noNaN: true }),
      perDayLogSd: fc.constantFrom(0, 0.05, 0.4),
    });
    fc.assert(
      fc.property(fc.array(anyClock, { minLength: 1, maxLength: 3 }), (clocks) => {
        const due = dueDateDistribution(clocks, asOfDay);
        const total =
          due.chancePastNow + due.weeklyProbability.reduce((a, b) => a + b, 0) + due.laterProbability;
        expect(Math.abs(total - 1)).toBeLessThan(1e-9);
        for (const p of due.weeklyProbability) expect(p).toBeGreaterThanOrEqual(0);
        if (due.dueDay !== null) expect(due.earliestDay!).toBeLessThanOrEqual(due.dueDay);
        if (due.latestDay !== null) expect(due.dueDay!).toBeLessThanOrEqual(due.latestDay);
      }),
      { seed: 7, numRuns: 60 },
    );
  });
});
