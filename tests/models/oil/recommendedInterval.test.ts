import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changesThatBuy } from '../../../models/oil/changesThatBuy.ts';
import { oilCondition, partOfExposure } from '../../../models/oil/condition.ts';
import type { Exposure, OilEngine, OilFill } from '../../../models/oil/exposure.ts';
import { unitRates } from '../../../models/oil/exposure.ts';
import { monthByMonth } from '../../../models/oil/monthByMonth.ts';
import type { IntervalQuestion } from '../../../models/oil/intervalQuestion.ts';
import { recommendedInterval } from '../../../models/oil/recommendedInterval.ts';
import { coefficients } from './catalog.ts';
import { checkCase, duty } from './checkCases.ts';

const book = {
  intervalKm: 10_000,
  intervalMonths: 12,
  severeIntervalKm: 6000,
  severeIntervalMonths: 6,
  hoursLimitH: null,
};
const noBook = {
  intervalKm: null,
  intervalMonths: null,
  severeIntervalKm: null,
  severeIntervalMonths: null,
  hoursLimitH: null,
};
interface Unit {
  readonly exposure: Exposure;
  readonly engine: OilEngine;
  readonly fill: OilFill;
}
const ask = (unit: Unit, more: Partial<IntervalQuestion> = {}) =>
  recommendedInterval(
    {
      coming: [unit.exposure],
      engine: unit.engine,
      fill: unit.fill,
      rates: unitRates,
      book,
      severe: false,
      ...more,
    },
    coefficients,
  );
const allCold = duty({ D: 8000, v: 28, L: 5, idle: 60, T: -5, days: 365, tech: 'TGDI', starts: 10 });

describe('recommended interval (worked by hand from the chemical limits)', () => {
  it('mixed duty: 0.9 of the chemical limit of 9035 km, below the book of 10000 km', () => {
    const advice = ask(checkCase('B'));
    expect(advice.governing).toBe('dispersancy');
    expect(advice.interval.distanceKm).toBeGreaterThan(0.9 * 9000);
    expect(advice.interval.distanceKm).toBeLessThan(0.9 * 9060);
    expect(advice.sentence).toMatch(
      /^Change the oil about 8 100 km, about 210 engine hours or about 200 days after/,
    );
    expect(advice.limits[0].margin).toBe(0);
    expect(advice.limits.map((line) => line.limit)).toContain('acid_number');
  });

  it('stop-start van and taxi: the hours cap governs, 200 h for a unit that idles much', () => {
    for (const letter of ['E', 'G']) {
      const advice = ask(checkCase(letter), { book: { ...book, intervalKm: 15_000 } });
      expect(advice.governing).toBe('hours');
      expect(advice.interval.engineHours).toBeCloseTo(200, 6);
    }
  });

  it('a maker’s hours limit takes the place of the default', () => {
    const advice = ask(checkCase('G'), { book: { ...book, hoursLimitH: 150 } });
    expect(advice.interval.engineHours).toBeCloseTo(150, 6);
  });

  it('severe service takes the severe book interval; where it is missing the normal one times 0.5, said in words', () => {
    expect(ask(checkCase('B'), { severe: true }).interval.distanceKm).toBeCloseTo(6000, 6);
    const advice = ask(checkCase('B'), { severe: true, book: { ...book, severeIntervalKm: null } });
    expect(advice.interval.distanceKm).toBeCloseTo(5000, 6);
    expect(advice.notes.map((note) => note.code)).toContain('severe_book_missing');
    expect(advice.notes[0].words).toContain('10 000 km is taken times 0.5');
  });

  it('a unit that hardly moves: the calendar governs, half a year in severe service', () => {
    const parked = partOfExposure(checkCase('B').exposure, 0.05);
    const still = { ...checkCase('B'), exposure: { ...parked, days: 365 } };
    const noMonths = { ...book, intervalMonths: null, severeIntervalMonths: null };
    expect(ask(still, { book: noMonths }).governing).toBe('calendar');
    const severe = ask(still, { severe: true, book: noMonths });
    expect(severe.governing).toBe('calendar');
    expect(severe.interval.days).toBeCloseTo(365.25 / 2, 6);
  });

  it('gas engine: book, hours and calendar only, and it says so', () => {
    const b = checkCase('B');
    const advice = ask({ ...b, engine: { ...b.engine, fuelSystem: 'gas' } });
    expect(advice.limits.map((line) => line.limit).sort()).toEqual(['book', 'calendar', 'hours']);
    expect(advice.notes.map((note) => note.code)).toContain('uncalibrated');
    expect(advice.interval.engineHours).toBeCloseTo(250, 6);
  });

  it('without any book interval it says so and still has hours and calendar', () => {
    const advice = ask(checkCase('A'), { book: noBook });
    expect(advice.notes.map((note) => note.code)).toContain('book_missing');
    expect(advice.governing).toBe('base_number');
  });

  it('fuel that settles at 10 %: find the source, no near-zero interval, a factor of 0.5 that is stated', () => {
    const advice = ask(allCold);
    expect(advice.severityFactor).toBe(0.5);
    expect(advice.notes.map((note) => note.code)).toEqual(['fuel_source', 'viscosity_source']);
    expect(advice.notes[0].words).toBe(
      'On this duty fuel in the oil settles at 10.1 % (limit 5 %). Changing oil does not cure it: find the source or change the duty; diluted oil burns more easily. Limits that do not see fuel are taken times 0.50 until then.',
    );
    expect(advice.limits.map((line) => line.limit)).not.toContain('fuel');
    expect(advice.interval.distanceKm).toBeGreaterThan(1500);
  });

  it('fuel that builds up in a diesel never takes more than half of what the other limits leave', () => {
    const van = checkCase('I');
    const leaking = ask(van, { rates: { ...unitRates, fuel: 20 } });
    const others = ask(van, { rates: { ...unitRates, fuel: 0 } });
    expect(ask(van).notes).toEqual([]);
    expect(['fuel', 'viscosity']).toContain(leaking.governing);
    expect(leaking.notes.map((note) => note.code)).toContain('fuel_source');
    expect(leaking.interval.distanceKm).toBeGreaterThan(0.3 * others.interval.distanceKm);
  });
});

it('says that only idling keeps the fuel down, where it does', () => {
  const held = { ...allCold, exposure: { ...allCold.exposure, idleHours: 400 } };
  const advice = ask(held);
  expect(advice.notes.map((note) => note.code)).toEqual(['fuel_held_by_idling']);
  expect(advice.severityFactor).toBeLessThan(1);
});

it('each limit is used up in its own measure', () => {
  const b = checkCase('B');
  const hurried = { ...partOfExposure(b.exposure, 0.3), days: 20 };
  const { state } = oilCondition(hurried, b.engine, b.fill, unitRates, coefficients);
  const lines = ask(b, { soFar: { state, exposure: hurried } }).limits;
  const used = (limit: string) => lines.find((line) => line.limit === limit)!.used;
  expect(used('book')).toBeCloseTo(0.3, 9);
  expect(used('calendar')).toBeCloseTo(20 / 365.25, 9);
  expect(used('hours')).toBeCloseTo(state.engineHours / 250, 9);
});

describe('remaining life', () => {
  const b = checkCase('B');
  it('of a charge half-way on the same duty is the rest of the whole interval', () => {
    const done = partOfExposure(b.exposure, 0.4);
    const { state } = oilCondition(done, b.engine, b.fill, unitRates, coefficients);
    const whole = ask(b);
    const rest = ask(b, { soFar: { state, exposure: done } });
    expect(rest.left.distanceKm).toBeCloseTo(whole.interval.distanceKm - 4000, 3);
    expect(rest.interval.distanceKm).toBeCloseTo(whole.interval.distanceKm, 3);
    expect(rest.used).toBeCloseTo(4000 / whole.interval.distanceKm, 6);
  });

  it('of a charge past its interval is none, and used is above 1', () => {
    const { state } = oilCondition(b.exposure, b.engine, b.fill, unitRates, coefficients);
    const over = ask(b, { soFar: { state, exposure: b.exposure } });
    expect(over.left.days).toBe(0);
    expect(over.used).toBeGreaterThan(1.15);
    expect(over.used).toBeLessThan(1.35);
    expect(over.sentence).toMatch(/^The oil is past its interval/);
  });

  it('month by month: a charge that begins in winter is due sooner than one that begins in summer', () => {
    const d = checkCase('D');
    const ambient = [-8, -6, 0, 8, 14, 18, 21, 20, 15, 9, 2, -5];
    const perYear = { ...d.exposure };
    const due = (fromDay: number) =>
      ask(d, { coming: monthByMonth(perYear, ambient, fromDay, 24), book: noBook }).interval.days;
    const november = 20_393;
    const may = 20_574;
    expect(due(november)).toBeLessThan(due(may) - 10);
  });

  it('equal months are the same as one stretch', () => {
    const d = checkCase('D');
    const months = monthByMonth(d.exposure, new Array<number>(12).fill(-5), 20_000, 18);
    const pieces = ask(d, { coming: months, book: noBook });
    const one = ask(d, { book: noBook });
    expect(pieces.governing).toBe(one.governing);
    expect(pieces.interval.distanceKm / one.interval.distanceKm).toBeCloseTo(1, 6);
  });
});

describe('what a change buys', () => {
  it('short trips in the cold: each change gains, and its gain is that of asking again', () => {
    const d = checkCase('D');
    const question = {
      coming: [d.exposure],
      engine: d.engine,
      fill: d.fill,
      rates: unitRates,
      book: noBook,
      severe: true,
    };
    const gains = changesThatBuy(question, coefficients);
    const of = (code: string) => gains.find((gain) => gain.code === code)!;
    expect(of('longer_trips').gainKm).toBeGreaterThan(0);
    expect(of('warm_parking').gainKm).toBeGreaterThan(0);
    expect(of('halve_idling').gainKm).toBeGreaterThan(0);
    const base = recommendedInterval(question, coefficients).interval.distanceKm;
    const again = recommendedInterval(
      { ...question, coming: [{ ...d.exposure, idleHours: 30 }] },
      coefficients,
    ).interval.distanceKm;
    expect(of('halve_idling').gainKm).toBeCloseTo(again - base, 9);
    expect(gains.every((gain) => gain.gainDays >= -1e-9)).toBe(true);
  });

  it('says when the book holds the interval', () => {
    const a = checkCase('A');
    const gains = changesThatBuy(
      { coming: [a.exposure], engine: a.engine, fill: a.fill, rates: unitRates, book, severe: false },
      coefficients,
    );
    expect(gains.every((gain) => gain.words.includes('no gain, held by the book interval'))).toBe(true);
  });
});

describe('refusals', () => {
  it('names what is wrong', () => {
    expect(() => ask(checkCase('B'), { coming: [] })).toThrow(
      'coming must hold at least one stretch, got none',
    );
    const still = { ...checkCase('B').exposure, days: 0 };
    expect(() => ask(checkCase('B'), { coming: [still] })).toThrow(
      'days of a coming stretch must be above 0, got 0',
    );
  });
});

it('never goes beyond the book, whatever the duty', () => {
  fc.assert(
    fc.property(
      fc.constantFrom('A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'I', 'J'),
      fc.boolean(),
      (letter, severe) => {
        const advice = ask(checkCase(letter), { severe });
        expect(advice.interval.distanceKm).toBeLessThanOrEqual((severe ? 6000 : 10_000) + 1e-6);
      },
    ),
    { numRuns: 40, seed: 50 },
  );
});
