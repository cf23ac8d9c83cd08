import { describe, expect, test } from 'vitest';
import { dayFromIso } from '../../../models/schema/day.ts';
import { whatWouldChange } from '../../../models/assessment/whatWouldChange.ts';
import { coefficients, labUnit } from './sampleFixture.ts';

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
      /\d % chance that .* went unrecorded; .* bring the record in/,
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
