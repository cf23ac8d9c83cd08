import { describe, expect, it } from 'vitest';
import { budgetCase } from '../../../models/decisions/budgetCase.ts';
import type { BudgetInputs } from '../../../models/decisions/budgetTypes.ts';
import { seededRandom } from '../../../models/numeric/random.ts';
import { dayFromIso } from '../../../models/schema/day.ts';
import { coefficients } from './catalog.ts';
import { highs } from './highs.ts';
import { moneyUnit, plainCoefficients, wornFleet } from './moneyFixture.ts';

const asOfDay = dayFromIso('2026-03-31');
const even = { kind: 'monthly', chance: [[0.05, 0.05]], renewedChance: null } as const;
const two: BudgetInputs = {
  asOfDay,
  amountCents: 150_000,
  currency: 'EUR',
  months: 2,
  units: [moneyUnit('A'), moneyUnit('B', { risk: even })],
  coefficients: plainCoefficients,
  solver: highs,
  random: seededRandom(1),
  draws: 20_000,
  effort: { gap: 0, seconds: 10 },
};

describe('two units, worked by hand to the cent', () => {
  // A: chances .1 then .2, a failure costs 9 000.00 + 2 × 500.00 = 10 000.00, a renewal 1 000.00 and then no failure.
  //    running 1 000.00 + .9·.2·10 000.00 = 2 800.00; renewing saves 1 800.00; a month later it costs 900.00 more.
  // B: running .05·10 000.00 + .95·.05·10 000.00 = 975.00, less than a renewal.
  const result = budgetCase(two);
  it('renews A and leaves B alone', () => {
    expect(result.chosen).toEqual([
      {
        unitNumber: 'A',
        action: 'renew',
        words: 'renew the timing set and what goes with it',
        on: '2026-03-31',
        costCents: 100_000,
        labourCents: 80_000,
        downtimeCents: 0,
        hours: 8,
        avoidedCents: { low: 280_000, mid: 280_000, high: 280_000 },
        netCents: 180_000,
        waitingMonthCents: { low: 90_000, mid: 90_000, high: 90_000 },
      },
    ]);
    expect(result.leftAlone).toEqual([
      {
        unitNumber: 'B',
        reason:
          'nothing is expected to save more than it costs (chance of failure about 1 in 10 over 2 months)',
      },
    ]);
    expect(result).toMatchObject({
      amountCents: 150_000,
      months: 2,
      spentCents: 100_000,
      gap: 0,
      greedyLossCents: 0,
      waitingMonthCents: { low: 90_000, mid: 90_000, high: 90_000 },
    });
  });
  it('prices money: the next thousand buys nothing, the last one bought 1 800.00', () => {
    expect(result.valueOfNextThousandCents).toBe(0);
    expect(result.valueOfLastThousandCents).toBe(180_000);
  });
  it('simulates what the hand gives: A fails .28 of the time, and the plan loses when it would not have', () => {
    expect(result.failuresAvoided.mid).toBeCloseTo(0.28, 2);
    expect(result.failuresAvoided).toMatchObject({ low: 0, high: 1 });
    expect(result.failuresWith.mid).toBeCloseTo(0.0975, 2);
    expect(result.chanceOfLoss).toBeCloseTo(0.72, 2);
    expect(Math.abs(result.unplannedCents.mid / 97_500 - 1)).toBeLessThan(0.05);
    expect(result.unplannedCents.p90).toBe(0);
    expect(result.byMonth.map((month) => month.plannedCents)).toEqual([100_000, 0]);
  });
  it('shows levels and what the saving hangs on', () => {
    expect(result.levels.map((level) => [level.budgetCents, level.spentCents])).toEqual([
      [75_000, 0],
      [150_000, 100_000],
      [225_000, 100_000],
      [300_000, 100_000],
    ]);
    const failure = result.tornado.find((bar) => bar.cause === 'failure_cost')!;
    // saving at ∓30 % of the failure's cost: 2 800·.7 − 1 000 and 2 800·1.3 − 1 000
    expect([failure.atLowCents, failure.atHighCents]).toEqual([96_000, 264_000]);
    const planned = result.tornado.find((bar) => bar.cause === 'planned_cost')!;
    expect([planned.atLowCents, planned.atHighCents]).toEqual([200_000, 160_000]);
    expect(result.tornado.find((bar) => bar.cause === 'shape')).toMatchObject({
      atLowCents: 180_000,
      atHighCents: 180_000,
    });
  });
});

describe('odd cases', () => {
  it('a budget of 0 runs everything and says so', () => {
    const result = budgetCase({ ...two, amountCents: 0 });
    expect(result).toMatchObject({
      chosen: [],
      spentCents: 0,
      chanceOfLoss: 0,
      valueOfNextThousandCents: 180_000,
    });
    expect(result.notes).toEqual(['the budget is 0: everything is run']);
    expect(result.leftAlone[0]!.reason).toContain('go further elsewhere');
  });
  it('a budget above everything says what is not needed', () => {
    const result = budgetCase({ ...two, amountCents: 99_000_000 });
    expect(result.notes).toEqual(['all that is worth doing fits; 989000 EUR is not needed']);
  });
  it('says when there is nothing to do or nobody to do it to', () => {
    expect(budgetCase({ ...two, units: [] }).notes).toEqual(['there are no units to plan for']);
    expect(budgetCase({ ...two, units: [moneyUnit('B', { risk: even })] }).notes).toEqual([
      'nothing is expected to save more than it costs',
    ]);
  });
  it('keeps must-do and must-not lists, even against the saving or the money', () => {
    const must = budgetCase({ ...two, mustDo: [{ unitNumber: 'B' }], mustNot: [{ unitNumber: 'A' }] });
    expect(must.chosen.map((line) => line.unitNumber)).toEqual(['B']);
    expect(must.leftAlone).toEqual([{ unitNumber: 'A', reason: 'on the list of units to leave alone' }]);
    const short = budgetCase({ ...two, amountCents: 40_000, mustDo: [{ unitNumber: 'B', action: 'renew' }] });
    expect(short.chosen).toHaveLength(1);
    expect(short.notes).toContain('what must be done is 600.00 EUR above the limits');
    const not = budgetCase({ ...two, mustNot: [{ unitNumber: 'A', action: 'renew' }] });
    expect(not.chosen).toEqual([]);
  });
  it('leaves covered, unknown and disposed units alone with the reason, and takes a negative rate as 0', () => {
    const warranty = { untilDay: asOfDay + 90, untilKm: null, odometerKm: null, kmPerDay: null };
    const result = budgetCase({
      ...two,
      coefficients: { ...plainCoefficients, 'money.discount_rate': -0.1 },
      units: [
        moneyUnit('1', { warranty }),
        moneyUnit('2', { risk: null }),
        moneyUnit('3', { disposalDay: asOfDay - 1 }),
      ],
    });
    expect(result.chosen).toEqual([]);
    expect(result.leftAlone.map((entry) => entry.reason)).toEqual([
      expect.stringContaining('claim before then, do not pay'),
      'the chance of failure is not known',
      'disposal on 2026-03-30 has passed: nothing is left to gain',
    ]);
    expect(result.notes[0]).toBe('a discount rate below 0 (-0.1) is taken as 0');
  });
  it('refuses nonsense', () => {
    expect(() => budgetCase({ ...two, amountCents: -1 })).toThrow('amountCents must be 0 or above, got -1');
    expect(() => budgetCase({ ...two, months: 61 })).toThrow(
      'months must be a whole number from 1 to 60, got 61',
    );
    expect(() => budgetCase({ ...two, units: [moneyUnit('A'), moneyUnit('A')] })).toThrow('got A twice');
  });
});

describe('a fleet', () => {
  const inputs: BudgetInputs = {
    ...two,
    units: wornFleet(80, 3),
    amountCents: 2_000_000,
    months: 24,
    coefficients,
    draws: 2000,
    random: seededRandom(9),
    effort: { gap: 0.0005, seconds: 10 },
  };
  const result = budgetCase(inputs);
  it('keeps the budget, accounts for every unit and proves the gap', () => {
    expect(result.spentCents).toBeLessThanOrEqual(2_000_000);
    expect(result.chosen.reduce((sum, line) => sum + line.costCents, 0)).toBe(result.spentCents);
    expect(result.chosen.length + result.leftAlone.length).toBe(80);
    expect(result.gap).toBeLessThanOrEqual(0.0005);
    expect(result.greedyLossCents).toBeGreaterThanOrEqual(0);
    for (const line of result.chosen) {
      expect(line.avoidedCents.low).toBeLessThanOrEqual(line.avoidedCents.mid);
      expect(line.avoidedCents.mid).toBeLessThanOrEqual(line.avoidedCents.high);
      expect(line.netCents).toBeGreaterThan(0);
    }
  });
  it('avoids failures, with ranges in order and more for more money', () => {
    const { failuresAvoided } = result;
    expect(failuresAvoided.low).toBeLessThanOrEqual(failuresAvoided.mid);
    expect(failuresAvoided.mid).toBeLessThanOrEqual(failuresAvoided.high);
    expect(failuresAvoided.mid).toBeGreaterThan(1);
    expect(result.unplannedCents.mid).toBeLessThan(result.unplannedWithoutCents.mid);
    expect(result.savingCents.mid).toBeGreaterThan(0);
    expect(result.chanceOfLoss).toBeLessThan(0.5);
    const avoided = result.levels.map((level) => level.avoidedCents);
    for (let i = 1; i < avoided.length; i++)
      expect(avoided[i]!).toBeGreaterThanOrEqual(avoided[i - 1]! * 0.98);
    expect(result.tornado).toHaveLength(5);
  });
  it('agrees with the expected saving that the plan was chosen by', () => {
    const expected = result.chosen.reduce((sum, line) => sum + line.netCents, 0);
    // the simulation counts one failure a unit, so it saves a little less than the renewal equation
    expect(result.savingCents.mid / expected).toBeGreaterThan(0.75);
    expect(result.savingCents.mid / expected).toBeLessThan(1.15);
  });
  it('repeats with the same seed', () => {
    const again = budgetCase({ ...inputs, random: seededRandom(9) });
    expect(again.failuresAvoided).toEqual(result.failuresAvoided);
    expect(again.chosen).toEqual(result.chosen);
  });
});
