import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unitCosts } from '../../../models/decisions/moneyUnit.ts';
import { renewalTiming } from '../../../models/decisions/renewalTiming.ts';
import { riskOf, type RiskDraws } from '../../../models/decisions/risk.ts';
import { recommendUnit } from '../../../models/decisions/unitRecommendation.ts';
import { coverOf } from '../../../models/decisions/warranty.ts';
import { dayFromIso } from '../../../models/schema/day.ts';
import { coefficients } from './catalog.ts';
import { moneyUnit, plainCoefficients } from './moneyFixture.ts';

const asOfDay = dayFromIso('2026-03-31');
const plain = { plannedCents: 1000, failureCents: 5000, monthlyRate: 0 };

describe('timing of a renewal', () => {
  it('worked by hand: two months of chance .1, a renewed part that does not fail', () => {
    const risk = riskOf({ kind: 'monthly', chance: [[0.1, 0.1]], renewedChance: null });
    const timing = renewalTiming(risk, 0, 2, plain);
    expect(timing.run).toBeCloseTo(0.1 * 5000 + 0.9 * 0.1 * 5000, 9);
    expect([...timing.renewAt].map((x) => Math.round(1000 * x) / 1000)).toEqual([1000, 500 + 900, 950 + 810]);
    expect(timing.renewedChance).toBe(0);
  });
  it('worked by hand: a part that fails for certain each month, with and without discount', () => {
    const risk = riskOf({ kind: 'monthly', chance: [[1, 1]], renewedChance: [[1, 1]] });
    expect(renewalTiming(risk, 0, 2, plain).run).toBeCloseTo(10_000, 6);
    const rate = 0.01;
    const discounted = renewalTiming(risk, 0, 2, { ...plain, monthlyRate: rate });
    expect(discounted.run).toBeCloseTo(5000 * (Math.exp(-0.005) + Math.exp(-0.015)), 6);
  });
  it('worked by hand: chance .5 a month for old and new alike over two months', () => {
    const risk = riskOf({ kind: 'monthly', chance: [[0.5, 0.5]], renewedChance: [[0.5, 0.5]] });
    // new part with one month left: 2 500; first month .5·(5 000 + 2 500) + second .25·5 000
    expect(renewalTiming(risk, 0, 2, plain).run).toBeCloseTo(3750 + 1250, 9);
    expect(renewalTiming(risk, 0, 2, plain).renewAt[0]).toBeCloseTo(1000 + 5000, 9);
  });
  it('renewing never helps a part that does not wear, and helps an old one that does', () => {
    const even: RiskDraws = {
      kind: 'wear',
      parts: [{ shape: [1], scale: [100], age: [80] }],
      usePerMonth: [2],
    };
    const timing = renewalTiming(riskOf(even), 0, 36, plain);
    timing.renewAt.forEach((cost) => expect(cost).toBeGreaterThan(timing.run));
    const old = riskOf({ kind: 'wear', parts: [{ shape: [4], scale: [100], age: [120] }], usePerMonth: [2] });
    expect(renewalTiming(old, 0, 36, plain).renewAt[0]).toBeLessThan(renewalTiming(old, 0, 36, plain).run);
    expect(() => renewalTiming(old, 0, 1.5, plain)).toThrow('months must be a whole number from 0, got 1.5');
  });
});

describe('costs of a unit', () => {
  it('worked by hand: parts 600.00 and 8 h at 100.00', () => {
    const costs = unitCosts(moneyUnit('1', { plannedCents: null, plannedPartsCents: 60_000 }), coefficients);
    expect(costs).toMatchObject({
      plannedCents: 140_000,
      failureCents: 900_000,
      failureDowntimeCents: 100_000,
    });
    expect(costs.assumptions).toEqual([]);
  });
  it('fills what is missing and says so', () => {
    const bare = moneyUnit('1', {
      plannedCents: null,
      plannedHours: null,
      labourCentsPerHour: null,
      plannedDowntimeDays: null,
      failureCents: null,
      failureDowntimeDays: null,
      downtimeCentsPerDay: null,
    });
    const costs = unitCosts(bare, coefficients);
    expect(costs.plannedCents).toBe(90_000 + 9 * 12_000);
    expect(costs.failureCents).toBe(5 * 198_000);
    expect(costs.assumptions).toHaveLength(7);
    expect(costs.assumptions).toContain('labour at 120.00 an hour assumed');
    expect(costs.assumptions).toContain('a failure at 5 times a planned renewal assumed');
  });
  it('says when a renewal is dearer than a failure, and refuses nonsense', () => {
    expect(unitCosts(moneyUnit('1', { plannedCents: 5_000_000 }), coefficients).notes[0]).toContain(
      'can not pay',
    );
    expect(() => unitCosts(moneyUnit('7', { plannedHours: -1 }), coefficients)).toThrow(
      'plannedHours of 7 must be 0 or above, got -1',
    );
    expect(() => unitCosts(moneyUnit('7', { plannedCents: Number.NaN }), coefficients)).toThrow(
      'plannedCents of 7',
    );
  });
});

describe('cover', () => {
  const cover = { untilDay: asOfDay + 60, untilKm: 100_000, odometerKm: 99_000, kmPerDay: 50 };
  it('worked by hand: 1 000 km left at 50 km a day comes before 60 days', () => {
    expect(coverOf(cover, asOfDay)).toEqual({
      covered: true,
      claimByDay: asOfDay + 20,
      claimByOn: '2026-04-20',
      reasons: ['covered until about 2026-04-20: claim before then, do not pay'],
    });
  });
  it('ends by day or by distance, and says what is not known', () => {
    expect(coverOf({ ...cover, untilDay: asOfDay - 1 }, asOfDay)).toMatchObject({ covered: false });
    expect(coverOf({ ...cover, odometerKm: 100_000 }, asOfDay).reasons).toEqual(['cover ended at 100000 km']);
    expect(coverOf({ ...cover, odometerKm: null }, asOfDay).reasons).toHaveLength(2);
    expect(coverOf({ ...cover, odometerKm: null, untilDay: null }, asOfDay).covered).toBe(false);
    expect(coverOf({ ...cover, untilDay: null, kmPerDay: null }, asOfDay)).toMatchObject({
      covered: true,
      claimByOn: null,
    });
    expect(coverOf(null, asOfDay)).toMatchObject({ covered: false, reasons: [] });
    expect(() => coverOf({ ...cover, kmPerDay: -1 }, asOfDay)).toThrow(
      'warranty kmPerDay must be 0 or above, got -1',
    );
  });
});

describe('what to do on a unit', () => {
  it('worked by hand: chances .1 and .2, failure 10 000.00, renewal 1 000.00', () => {
    const advice = recommendUnit(moneyUnit('A'), asOfDay, 2, plainCoefficients);
    expect(advice).toMatchObject({
      action: 'renew',
      on: '2026-03-31',
      paysNow: true,
      paysWithin12Months: true,
      // running: .1·10 000 + .9·.2·10 000 = 2 800
      avoidedCents: { low: 280_000, mid: 280_000, high: 280_000 },
      netCents: 180_000,
      // in a month: .1·10 000 + .9·1 000 = 1 900 against 1 000
      waitingMonthCents: { low: 90_000, mid: 90_000, high: 90_000 },
    });
    expect(advice.reasons[0]).toContain('chance of failure is about 3 in 10');
    expect(advice.reasons[1]).toBe('acting now is expected to save 1800 after its own cost of 1000');
  });
  it('runs on when a renewal does not pay', () => {
    const safe = moneyUnit('B', { risk: { kind: 'monthly', chance: [[0.05, 0.05]], renewedChance: null } });
    const advice = recommendUnit(safe, asOfDay, 2, plainCoefficients);
    expect(advice).toMatchObject({ action: 'run', on: null, paysNow: false, netCents: 0 });
    expect(advice.reasons[0]).toContain('nothing is expected to save more than it costs');
  });
  const wearing = (age: number, over = {}) =>
    moneyUnit('W', {
      risk: { kind: 'wear', parts: [{ shape: [5], scale: [200], age: [age] }], usePerMonth: [4] },
      ...over,
    });
  it('waits for a young part and names the month', () => {
    const young = recommendUnit(wearing(40), asOfDay, 60, coefficients);
    expect(young.action).toBe('renew');
    expect(young.paysNow).toBe(false);
    expect(young.reasons[1]).toMatch(/renewing is cheapest in about \d+ months; before that waiting saves/);
    expect(young.waitingMonthCents!.mid).toBeLessThan(0);
    const soonPlan = recommendUnit(wearing(40), asOfDay, 3, coefficients);
    expect(soonPlan.action).toBe('run');
    expect(soonPlan.reasons[0]).toContain('until then waiting saves');
    expect(recommendUnit(wearing(170), asOfDay, 24, coefficients)).toMatchObject({
      action: 'renew',
      paysNow: true,
    });
  });
  it('leaves a unit alone that is soon disposed of or gone, and says why', () => {
    const soon = recommendUnit(wearing(150, { disposalDay: asOfDay + 40 }), asOfDay, 24, coefficients);
    expect(soon.action).toBe('run');
    expect(soon.reasons[0]).toMatch(/^disposed of on 2026-05-10: nothing done now would earn its cost back/);
    const gone = recommendUnit(wearing(150, { disposalDay: asOfDay - 5 }), asOfDay, 24, coefficients);
    expect(gone.reasons).toEqual(['disposal on 2026-03-26 has passed: nothing is left to gain']);
  });
  it('never recommends paying while covered, and says when to claim', () => {
    const warranty = { untilDay: asOfDay + 200, untilKm: null, odometerKm: null, kmPerDay: null };
    const advice = recommendUnit(wearing(190, { warranty }), asOfDay, 24, coefficients);
    expect(advice).toMatchObject({ action: 'run', paysNow: false, claimByOn: '2026-10-17' });
    expect(advice.reasons[0]).toContain('claim before then, do not pay');
    expect(advice.reasons[1]).toContain('worth a look before the cover ends');
    expect(recommendUnit(wearing(1, { warranty }), asOfDay, 24, coefficients).reasons).toHaveLength(1);
  });
  it('looks first where the states are open, and tells what each finding leads to', () => {
    const states = { restricted: 0.45, worn: 0.35, neither: 0.2 };
    const advice = recommendUnit(wearing(150, { stateProbabilities: states }), asOfDay, 24, coefficients);
    expect(['look', 'clean', 'renew']).toContain(advice.action);
    const look = advice.judged!.options.find((option) => option.action === 'look')!;
    expect(look.words).toMatch(/ first; .+: .+, .+: .+/);
    expect(look.effect).toBeGreaterThan(0);
    expect(look.effect).toBeLessThanOrEqual(1);
    if (advice.action === 'look') expect(advice.reasons.length).toBeGreaterThan(2);
  });
  it('says when the chance of failure is not known or a failure is cheap', () => {
    expect(recommendUnit(moneyUnit('N', { risk: null }), asOfDay, 12, coefficients).reasons).toEqual([
      'the chance of failure is not known',
    ]);
    const dear = recommendUnit(moneyUnit('D', { plannedCents: 2_000_000 }), asOfDay, 12, coefficients);
    expect(dear.action).toBe('run');
    expect(dear.reasons[0]).toContain('renewing early can not pay');
  });
  it('never gives NaN and never pays to lose', () => {
    const any = fc.record({
      shape: fc.double({ min: 0.4, max: 7, noNaN: true }),
      age: fc.double({ min: 0, max: 600, noNaN: true }),
      use: fc.double({ min: 0, max: 30, noNaN: true }),
      disposal: fc.option(fc.integer({ min: -50, max: 2000 })),
      planned: fc.integer({ min: 0, max: 2_000_000 }),
    });
    fc.assert(
      fc.property(any, ({ shape, age, use, disposal, planned }) => {
        const unit = moneyUnit('P', {
          risk: { kind: 'wear', parts: [{ shape: [shape], scale: [200], age: [age] }], usePerMonth: [use] },
          disposalDay: disposal === null ? null : asOfDay + disposal,
          plannedCents: planned,
          stateProbabilities: { restricted: 0.2, worn: 0.2, neither: 0.6 },
        });
        const advice = recommendUnit(unit, asOfDay, 24, coefficients);
        expect(Number.isFinite(advice.netCents)).toBe(true);
        expect(advice.netCents).toBeGreaterThanOrEqual(0);
        for (const value of Object.values(advice.avoidedCents)) expect(Number.isInteger(value)).toBe(true);
        expect(advice.reasons.length).toBeGreaterThan(0);
      }),
      { seed: 61, numRuns: 60 },
    );
  });
});
