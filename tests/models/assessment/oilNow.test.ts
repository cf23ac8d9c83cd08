import { describe, expect, test } from 'vitest';
import { dayFromIso } from '../../../models/schema/day.ts';
import { whatWouldChange } from '../../../models/assessment/whatWouldChange.ts';
import { fuelAhead, fuelCaution } from '../../../models/assessment/fuelAhead.ts';
import { unitStoryOf } from '../../../models/assessment/unitStory.ts';
import { recommendedInterval } from '../../../models/oil/recommendedInterval.ts';
import { coefficients, labFleet, labUnit, models } from './sampleFixture.ts';

// 100 km and 1.3 h a day, the last drain on 2024-03-01, looked at on 2024-06-01: 92 days, 9200 km and 119.6 h since
const ran = { km: 9200, hours: 119.6 };

describe('the oil now in, with what the records leave open', () => {
  test('gaseous fuel: what it ran since the change counts, by hand', () => {
    const view = labUnit({ engine: { fuelSystem: 'gas', bookIntervalKm: 12_000 } });
    const { assessment, advice } = view.oil!;
    expect(advice.calibrated).toBe(false);
    expect(Math.abs(assessment.kmSinceChange! - ran.km)).toBeLessThan(20);
    expect(assessment.hoursSinceChange).toBeCloseTo(ran.hours, 0);
    expect(assessment.usedShare).toBeCloseTo(ran.km / 12_000, 2);
    // 2800 km left at 100 km a day
    expect(Math.abs(view.oil!.due!.dueDay! - (dayFromIso('2024-06-01') + 28))).toBeLessThanOrEqual(1);
  });

  test('a hybrid: distance by the odometer, hours by the engine, both go on as they were, by hand', () => {
    // 0.9 engine hours for 100 km a day, 0.1 of them idle: 125 km per driving hour, faster than the engine's own pace
    const view = labUnit({
      unit: { powertrain: 'hybrid' },
      hoursPerDay: 0.9,
      engine: { bookIntervalKm: 60_000, hoursLimitH: 250 },
    });
    const { assessment, advice } = view.oil!;
    expect(Math.abs(assessment.kmSinceChange! - ran.km)).toBeLessThan(20);
    expect(assessment.hoursSinceChange).toBeCloseTo(0.9 * 92, 0);
    const hours = advice.limits.find(({ limit }) => limit === 'hours')!;
    expect(Math.abs(hours.left.days - (250 - 0.9 * 92) / 0.9)).toBeLessThan(4);
    const { exposure } = view.timeline.charges.at(-1)!;
    expect(exposure.speedKmh).toBeCloseTo(125, 0);
    expect(exposure.enginePaceKmh!).toBeLessThan(110);
  });

  test('a change that may be missing: the date weighs both accounts, and says so', () => {
    const known = labUnit({ engine: { bookIntervalKm: 12_000 } });
    const gap = labUnit({ engine: { bookIntervalKm: 12_000 }, drainsEnd: 250 });
    const last = gap.timeline.charges.at(-1)!;
    expect(last.hiddenDrains).toBeGreaterThanOrEqual(1);
    expect(last.hiddenDrainChance).toBeGreaterThan(0.3);
    const [sure, open] = [known.oil!.due!, gap.oil!.due!];
    const width = (due: typeof sure) => due.latestDay! - due.earliestDay!;
    expect(width(open)).toBeGreaterThan(3 * width(sure));
    // not changed since November 2023: past due long ago; changed elsewhere: perhaps not
    expect(open.earliestDay!).toBeLessThan(dayFromIso('2024-04-01'));
    expect(open.latestDay!).toBeGreaterThan(dayFromIso('2024-06-01'));
    expect(open.chancePastNow).toBeGreaterThan(1 - last.hiddenDrainChance);
    expect(gap.call.reasons.join('; ')).toMatch(
      /chance about \d in 10 that .* went unrecorded; .* bring the record in/,
    );
    expect(known.call.reasons.join()).not.toContain('unrecorded');
  });

  test('a ventilation fault shortens the interval until its repair is on record', () => {
    const engine = { bookIntervalKm: 60_000, hoursLimitH: 900 };
    const fault = { foundOn: '2024-04-10', finding: 'ventilation_fault' as const, value: 'yes' };
    const sound = labUnit({ engine });
    const open = labUnit({ engine, findings: [fault] });
    const repaired = labUnit({
      engine,
      findings: [fault],
      services: [{ servicedOn: '2024-04-20', works: ['ventilation_valve'] }],
    });
    const km = (view: typeof sound) =>
      view.oil!.advice.limits.find(({ limit }) => limit === 'dispersancy')!.at.distanceKm;
    expect(km(open)).toBeLessThan(0.9 * km(sound));
    // what it did while it stood stays in the oil
    expect(km(repaired)).toBeGreaterThan(km(open));
    expect(open.call.reasons.join()).toContain('crankcase ventilation fault');
    expect(repaired.call.reasons.join()).not.toContain('ventilation');
    expect(whatWouldChange(open, coefficients).join()).toMatch(/putting right the fault on record/i);
  });

  test('what no change would lengthen is said with what holds it', () => {
    const [line, ...more] = whatWouldChange(labUnit({}), coefficients);
    expect(line).toMatch(/^No gain, held by the book interval: Halving the idling; trips twice as long/);
    expect(more).toEqual([]);
  });
});

describe('the right oil, its mixture, its season and what is added', () => {
  const story = (lab: Parameters<typeof labUnit>[0]) => {
    const fleet = labFleet(lab);
    return unitStoryOf(fleet.views.get('L1')!, fleet.assessment.units[0], fleet.learned.alarms, models);
  };

  test('an older, thinner oil: the effect on interval and wear is said, and none where the right one is in', () => {
    // 1 − 1/(1.4 · (10.2/8.3)^0.7) = 38 %; API SN has 0.85 of the dispersancy, 1/0.85 − 1 = 18 %
    const engine = { bookIntervalKm: 60_000, hoursLimitH: 900 };
    const wrong = story({ engine, drain: { oilGrade: '5W-20', oilCategory: 'API SN' } });
    expect(wrong.rightOil.filter(({ verdict }) => verdict === 'wrong')).toHaveLength(2);
    const [interval, wear] = wrong.rightOilEffect;
    expect(interval).toMatch(/^Interval with the oil asked for \(5W-30, API SP\): /);
    expect(wear).toMatch(/chain wear about 38 % less; dispersancy about 18 % more/);
    expect(story({ engine }).rightOilEffect).toEqual([]);
  });

  test('three top-ups of another grade: mixture, make-up rate by hand and what to look for', () => {
    const added = (servicedOn: string) => ({
      servicedOn,
      works: ['top_up' as const],
      oilL: 1,
      oilGrade: '10W-40',
    });
    const services = ['2024-03-20', '2024-04-20', '2024-05-20'].map(added);
    const { makeUp, rightOil, assessment } = story({ services });
    expect(rightOil.find(({ topic }) => topic === 'mixture')?.words).toContain('3 L of 10W-40');
    // 3 L over the charges of the two years looked back on, 79 000 km
    expect(makeUp).toMatch(/^3 L in 79 000 km, 0\.038 L per 1000 km/);
    expect(assessment.reasons.join()).not.toContain('make-up oil');
    const thirsty = story({ services: services.map((row) => ({ ...row, oilL: 14 })) });
    expect(thirsty.assessment.reasons.join()).toMatch(/make-up oil 0\.5\d L per 1000 km: look for leaks/);
    expect(story({}).makeUp).toBeNull();
  });

  test('short trips in the cold: the season is in the words, fuel in winter is watched', () => {
    const cold = Object.fromEntries(
      ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'].map((month, i) => [
        `meanTemperature${month}C`,
        Math.round(2 - 18 * Math.cos((2 * Math.PI * i) / 12)),
      ]),
    );
    const lab = {
      site: cold,
      unit: { duty: 'short trips' },
      engine: { fuelSystem: 'TGDI' as const, displacementL: 1.6, sumpL: 4, bookIntervalKm: 60_000 },
    };
    const words = story(lab).intervalWords.join(' ');
    expect(words).toMatch(/Fuel in the oil settles between \d\.\d and \d\.\d % over the year/);
    const { advice, question } = labUnit(lab).oil!;
    const summer = { ...question, coming: question.coming.map((month) => ({ ...month, ambientC: 20 })) };
    expect(recommendedInterval(summer, coefficients).interval.distanceKm).toBeGreaterThanOrEqual(
      advice.interval.distanceKm,
    );
    const months = [0, 20, 10].map((ambientC) => ({ ...question.coming[0], ambientC }));
    const ahead = fuelAhead({ ...question, coming: months }, 0.2, models.condemningLimits, coefficients)!;
    expect(ahead.worstMonth).toBe(0);
    expect(ahead.mostPercent).toBeGreaterThan(ahead.leastPercent);
    // log-normal: at the limit itself half of the readings lie past it
    const at = ahead.cautionPercent / ahead.mostPercent;
    const rates = { ...question.rates, fuel: question.rates.fuel * at };
    const half = fuelAhead(
      { ...question, rates, coming: months },
      0.2,
      models.condemningLimits,
      coefficients,
    )!;
    expect(half.chancePastCaution).toBeCloseTo(0.5, 6);
    expect(fuelCaution(half, dayFromIso('2024-01-01'), coefficients)).toMatch(
      /2\.5 % in January \(.*\), past the caution limit of 2\.5 % in about 5 of 10 cases/,
    );
  });
});
