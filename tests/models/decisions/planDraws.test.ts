import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { budgetCase } from '../../../models/decisions/budgetCase.ts';
import { savedMoreBy, waitingOf } from '../../../models/decisions/planDraws.ts';
import { seededRandom } from '../../../models/numeric/random.ts';
import { rangeOf } from '../../../models/decisions/range.ts';
import type { UnitOption } from '../../../models/decisions/unitOption.ts';
import { coefficients } from './catalog.ts';
import { highs } from './highs.ts';
import { moneyUnit, plainCoefficients, wornFleet } from './moneyFixture.ts';

const option = (saving: readonly number[], waiting: readonly number[] = saving): UnitOption => ({
  action: 'renew',
  words: 'work',
  month: 0,
  costCents: 1,
  hours: 1,
  avoidedCents: rangeOf(saving),
  netCents: rangeOf(saving).mid,
  otherCents: 0,
  waitingMonthCents: rangeOf(waiting),
  byDraw: { saving: Float64Array.from(saving), waiting: Float64Array.from(waiting) },
  effect: 'renew',
});

describe('sums over a plan, draw by draw, worked by hand', () => {
  const rising = option([100, 200, 300]);
  const falling = option([300, 200, 100]);
  it('two units that follow each other spread twice as far, two that go against each other not at all', () => {
    // type 7 of Hyndman & Fan 1996: 10 % of 200, 400, 600 lies a fifth of the way from 200 to 400
    expect(waitingOf([rising, rising])).toEqual({ low: 240, mid: 400, high: 560 });
    expect(waitingOf([rising, falling])).toEqual({ low: 400, mid: 400, high: 400 });
  });
  it('leaves out units for which waiting saves', () => {
    expect(waitingOf([rising, option([0, 0, 0], [-50, -60, 20])])).toEqual(waitingOf([rising]));
    expect(waitingOf([])).toEqual({ low: 0, mid: 0, high: 0 });
  });
  it('takes the one plan from the other in each draw', () => {
    expect(savedMoreBy([rising, falling], [rising])).toEqual(rangeOf([300, 200, 100]));
    expect(savedMoreBy([rising], [rising])).toEqual({ low: 0, mid: 0, high: 0 });
    // one draw stands for each of the three of the other
    expect(savedMoreBy([rising, option([50])], [])).toEqual(rangeOf([150, 250, 350]));
  });
});

it('independent draws add as their variances do (value from memory: 10 % of a normal lies 1.2816 below its mean)', () => {
  const random = seededRandom(4);
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const units = Array.from({ length: 9 }, () =>
    option(Array.from({ length: 4000 }, () => 1000 + 100 * normal())),
  );
  const { low, mid, high } = waitingOf(units);
  expect(mid / 9000).toBeCloseTo(1, 2);
  expect((high - low) / (2 * 1.2816 * 100 * Math.sqrt(9))).toBeCloseTo(1, 1);
});

it('the middle of a sum is the sum of middles, and its range no wider than the ranges put together', () => {
  const draws = fc.array(fc.integer({ min: 1, max: 10_000 }), { minLength: 5, maxLength: 5 });
  fc.assert(
    fc.property(fc.array(draws, { minLength: 1, maxLength: 6 }), (units) => {
      const options = units.map((values) => option(values));
      const whole = waitingOf(options);
      expect(whole.mid).toBeCloseTo(
        options.reduce((sum, one) => sum + one.waitingMonthCents.mid, 0),
        6,
      );
      expect(whole.low).toBeGreaterThanOrEqual(units.reduce((sum, values) => sum + Math.min(...values), 0));
      expect(whole.high).toBeLessThanOrEqual(units.reduce((sum, values) => sum + Math.max(...values), 0));
    }),
  );
});

describe('ranges of a budget case', () => {
  it('by hand: two draws of one unit', () => {
    // a failure costs 10 000.00, a renewal 1 000.00 and ends them; chances .1 then .2, or .2 then .2
    // running 2 800.00 or 3 600.00, so renewing saves 1 800.00 or 2 600.00; waiting costs 900.00 or 1 800.00 more
    const chance = [
      [0.1, 0.2],
      [0.2, 0.2],
    ];
    const result = budgetCase({
      asOfDay: 20_000,
      amountCents: 100_000,
      currency: 'EUR',
      months: 2,
      units: [moneyUnit('A', { risk: { kind: 'monthly', chance, renewedChance: null } })],
      coefficients: plainCoefficients,
      solver: highs,
      random: seededRandom(1),
      draws: 200,
      effort: { gap: 0, seconds: 10 },
    });
    expect(result.nextThousandCents).toEqual({ low: 0, mid: 0, high: 0 });
    expect(result.lastThousandCents).toEqual({ low: 188_000, mid: 220_000, high: 252_000 });
    expect(result.waitingMonthCents).toEqual({ low: 99_000, mid: 135_000, high: 171_000 });
  });
  it('hold the middle values of a fleet, looks among its work', () => {
    const result = budgetCase({
      asOfDay: 20_000,
      amountCents: 1_000_000,
      currency: 'EUR',
      months: 12,
      units: wornFleet(24, 3),
      coefficients,
      solver: highs,
      random: seededRandom(9),
      draws: 200,
      effort: { gap: 0, seconds: 10 },
      curveSteps: 1,
    });
    expect(new Set(result.chosen.map((line) => line.action)).size).toBeGreaterThan(1);
    const middles = result.chosen.reduce((sum, { waitingMonthCents: one }) => sum + Math.max(0, one!.mid), 0);
    expect(Math.abs(result.waitingMonthCents.mid - middles)).toBeLessThanOrEqual(result.chosen.length);
    expect(result.waitingMonthCents.low).toBeLessThan(result.waitingMonthCents.mid);
    const { nextThousandCents: next, lastThousandCents: last } = result;
    expect(Math.abs(next!.mid - result.valueOfNextThousandCents)).toBeLessThanOrEqual(1);
    expect(Math.abs(last!.mid - result.valueOfLastThousandCents)).toBeLessThanOrEqual(1);
    expect(last!.low).toBeLessThan(last!.high);
  });
});
