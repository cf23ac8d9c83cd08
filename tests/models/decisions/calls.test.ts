import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bookingUrgency, limitBooked, type CalledUnit } from '../../../models/decisions/bookingLimit.ts';
import { callFor, type CallInputs } from '../../../models/decisions/calls.ts';
import { calls } from '../../../models/schema/assessment.ts';
import { defaultSettings } from '../../../models/schema/settings.ts';

const settings = defaultSettings;
const quiet: CallInputs = {
  directEvidence: [],
  clearedStop: false,
  dueDayMedian: 20200,
  chancePastNow: 0,
  failureProbability: 0.01,
  looksOrRenewalPaysNow: false,
  renewalPaysWithin12Months: false,
  cautionLimitsPassed: [],
  recordQuality: 0.9,
  asOfDay: 20000,
};
const call = (over: Partial<CallInputs>) => callFor({ ...quiet, ...over }, settings);

describe('the call on one unit', () => {
  it('is clear when nothing is due', () => {
    expect(call({})).toEqual({ call: 'clear', reasons: ['nothing due and no limit passed'] });
  });
  it.each([
    [{ dueDayMedian: 20014 }, 'book', 'oil due in 14 days'],
    [{ dueDayMedian: 20015 }, 'plan', 'oil due in 15 days'],
    [{ dueDayMedian: 20091 }, 'plan', 'oil due in 91 days'],
    [{ dueDayMedian: 20092 }, 'clear', 'nothing due and no limit passed'],
    [{ dueDayMedian: 20000 }, 'book', 'oil due today'],
    [
      { dueDayMedian: 19990, chancePastNow: 0.94 },
      'book',
      'oil 10 days past due, past it in about 9 of 10 cases',
    ],
    [{ dueDayMedian: null }, 'watch', 'the oil due date is not known'],
    [{ failureProbability: 0.2 }, 'book', 'chance of a timing-drive failure about 1 in 5 within a year'],
    [{ failureProbability: 0.08 }, 'plan', 'chance of a timing-drive failure about 1 in 13 within a year'],
    [{ failureProbability: 0.03 }, 'watch', 'chance of a timing-drive failure about 1 in 33 within a year'],
    [{ failureProbability: 0.0299 }, 'clear', 'nothing due and no limit passed'],
    [{ failureProbability: null }, 'watch', 'the chance of a timing-drive failure is not known'],
    [{ looksOrRenewalPaysNow: true }, 'book', 'a look or a renewal is worth its cost now'],
    [{ renewalPaysWithin12Months: true }, 'plan', 'a renewal becomes worth its cost within 12 months'],
    [{ cautionLimitsPassed: ['iron above caution'] }, 'watch', 'iron above caution'],
    [{ recordQuality: 0.49 }, 'watch', 'records of the last two years are 49 % complete, below 50 %'],
  ] as const)('%j is %s', (over, expected, reason) => {
    const result = call(over);
    expect(result.call).toBe(expected);
    expect(result.reasons[0]).toBe(reason);
  });
  it('stops only on direct evidence and lifts it only by a finding', () => {
    const bad = { failureProbability: 0.99, dueDayMedian: 19000, chancePastNow: 1 };
    expect(call(bad).call).toBe('book');
    expect(call({ ...bad, directEvidence: ['coolant in oil'] }).reasons[0]).toBe('coolant in oil');
    expect(call({ directEvidence: ['coolant in oil'] }).call).toBe('stop');
    expect(call({ directEvidence: ['coolant in oil'], clearedStop: true })).toEqual({
      call: 'watch',
      reasons: ["cleared by a technician's finding: coolant in oil"],
    });
  });
  it('never becomes calmer when the chance of failure rises or the date comes nearer', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const day = fc.integer({ min: 19900, max: 20200 });
    fc.assert(
      fc.property(share, share, day, day, (p, q, a, b) => {
        const calm = call({ failureProbability: Math.min(p, q), dueDayMedian: Math.max(a, b) });
        const urgent = call({ failureProbability: Math.max(p, q), dueDayMedian: Math.min(a, b) });
        expect(calls.indexOf(urgent.call)).toBeLessThanOrEqual(calls.indexOf(calm.call));
        expect(urgent.reasons.length).toBeGreaterThan(0);
      }),
      { seed: 3 },
    );
  });
});

const unit = (unitNumber: string, over: Partial<CalledUnit>): CalledUnit => ({
  unitNumber,
  site: 'North',
  result: { call: 'book', reasons: ['oil due in 3 days'] },
  dueDayMedian: 20003,
  chancePastNow: 0.1,
  failureProbability: 0.02,
  visitHours: 2,
  ...over,
});

describe('the fleet step', () => {
  it('worked by hand: 3 weeks of 1 h hold one visit of 2 h, past-limit units stay besides', () => {
    const after = limitBooked(
      [
        unit('1', { dueDayMedian: 20010 }),
        unit('2', { failureProbability: 0.7 }),
        unit('3', { chancePastNow: 0.8, dueDayMedian: 19999 }),
        unit('4', { result: { call: 'stop', reasons: ['coolant in oil'] } }),
        unit('5', { site: 'South' }),
      ],
      [
        { site: 'North', hoursPerWeek: 1.5 },
        { site: 'South', hoursPerWeek: 1 },
      ],
      settings,
      20000,
      40,
    );
    expect(after.map((row) => row.call)).toEqual(['plan', 'book', 'book', 'stop', 'book']);
    expect(after[0]!.reasons).toEqual([
      "the site's bays are full for 3 weeks with more urgent units",
      'oil due in 3 days',
    ]);
  });
  it('ranks by how far past the threshold a unit stands', () => {
    expect(bookingUrgency(unit('1', { dueDayMedian: 20000, failureProbability: 0.1 }), settings, 20000)).toBe(
      2,
    );
    expect(bookingUrgency(unit('1', { dueDayMedian: 20500, failureProbability: 0.8 }), settings, 20000)).toBe(
      4,
    );
    expect(bookingUrgency(unit('1', { dueDayMedian: null, failureProbability: null }), settings, 20000)).toBe(
      1,
    );
  });
  it('says when the hours of a site are assumed and refuses nonsense', () => {
    const many = Array.from({ length: 61 }, (_, index) => unit(String(index), { site: null }));
    const after = limitBooked(many, [], settings, 20000, 40);
    expect(after.filter((row) => row.call === 'book')).toHaveLength(60);
    expect(after[60]!.reasons.at(-1)).toBe('bay hours of the site are not recorded: 40 h a week assumed');
    expect(() => limitBooked([], [{ site: 'N', hoursPerWeek: -1 }], settings, 0, 40)).toThrow(
      'hoursPerWeek of site N must be 0 or above, got -1',
    );
    expect(() => limitBooked([unit('9', { visitHours: Number.NaN })], [], settings, 0, 40)).toThrow(
      'visitHours of 9',
    );
  });
  it('never books more hours than there is room, but for units past their limit', () => {
    const any = fc.record({
      hours: fc.integer({ min: 1, max: 9 }),
      past: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 30 }), fc.integer({ min: 0, max: 20 }), (rows, hoursPerWeek) => {
        const units = rows.map((row, i) =>
          unit(String(i), { visitHours: row.hours, chancePastNow: row.past }),
        );
        const after = limitBooked(units, [{ site: 'North', hoursPerWeek }], settings, 20000, 40);
        let [kept, others] = [0, 0];
        after.forEach((row, i) => {
          const past = units[i]!.chancePastNow >= settings.bookPastChance;
          if (past) expect(row.call).toBe('book');
          if (past) kept += units[i]!.visitHours;
          else if (row.call === 'book') others += units[i]!.visitHours;
        });
        expect(others).toBeLessThanOrEqual(Math.max(0, 3 * hoursPerWeek - kept));
      }),
      { seed: 5 },
    );
  });
});
