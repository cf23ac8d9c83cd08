import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reading } from '../../../models/schema/reading.ts';
import type { Service } from '../../../models/schema/service.ts';
import { dutyRules } from '../../../models/oil/dutyRules.ts';
import { meterSet, totalOn } from '../../../models/oil/meterSet.ts';
import { usualPerDay } from '../../../models/oil/meterSeries.ts';
import { day, dutyCoefficients, historyOf, iso, steadyReadings, type HistoryParts } from './dutyHistories.ts';

const rules = dutyRules(dutyCoefficients);
const asOf = day('2026-03-31');
const meters = (parts: HistoryParts) => meterSet(historyOf(parts), rules, asOf);
const pairs = (series: { days: ArrayLike<number>; values: ArrayLike<number> }) =>
  Array.from(series.days, (d, i) => [iso(d), Math.round(series.values[i] * 100) / 100]);
const km = (readOn: string, odometerKm: number): Partial<Reading> => ({ readOn, odometerKm });
const swap = (servicedOn: string, over: Partial<Service>): Partial<Service> => ({
  servicedOn,
  work: 'meter_replaced',
  ...over,
});

describe('one series per meter', () => {
  it('merges all kinds of records in order of day, whatever the order of entry', () => {
    const { odometer, firstRecordDay, lastRecordDay } = meters({
      unit: { inServiceOn: '2024-01-01', inServiceOdometerKm: 12 },
      readings: [km('2024-05-01', 4000), km('2024-02-01', 1000)],
      services: [{ servicedOn: '2024-04-01', odometerKm: 3000, work: 'oil_change' }],
      fuel: [{ filledOn: '2024-03-01', odometerKm: 2000, fuelL: 40 }],
      samples: [{ sampledOn: '2024-04-15', odometerKm: 3500 }],
      findings: [{ foundOn: '2024-06-01', odometerKm: 5000, finding: 'cover_view', value: 'clean' }],
    });
    expect(pairs(odometer)).toEqual([
      ['2024-01-01', 12],
      ['2024-02-01', 1000],
      ['2024-03-01', 2000],
      ['2024-04-01', 3000],
      ['2024-04-15', 3500],
      ['2024-05-01', 4000],
      ['2024-06-01', 5000],
    ]);
    expect([firstRecordDay, lastRecordDay]).toEqual([day('2024-02-01'), day('2024-06-01')]);
  });

  it('takes a new unit from nil on the in-service day, a used one not', () => {
    const fresh = meters({
      unit: { inServiceOn: '2024-01-01' },
      readings: steadyReadings('2024-06-01', 8, 30, { km: 60 }, { km: 9000 }),
    });
    expect(fresh.anchored).toEqual(['odometer']);
    expect(fresh.odometer.values[0]).toBe(0);
    const used = meters({
      unit: { inServiceOn: '2024-01-01' },
      readings: steadyReadings('2024-06-01', 8, 30, { km: 60 }, { km: 90_000 }),
    });
    expect(used.anchored).toEqual([]);
    const retrofitted = meters({
      unit: { inServiceOn: '2020-01-01' },
      readings: steadyReadings('2024-06-01', 8, 30, { km: 60, hours: 2 }, { km: 90_000, hours: 12 }),
    });
    expect(retrofitted.anchored).toEqual(['odometer']);
  });

  it('drops an extra digit, a missing digit and a lone step back', () => {
    const rows = steadyReadings('2024-01-01', 20, 20, { km: 50 }, { km: 10_000 });
    const spoiled = rows.map((row, i) => {
      if (i === 4) return { ...row, odometerKm: (row.odometerKm ?? 0) * 10 };
      if (i === 9) return { ...row, odometerKm: Math.floor((row.odometerKm ?? 0) / 10) };
      if (i === 14) return { ...row, odometerKm: (row.odometerKm ?? 0) - 5000 };
      return row;
    });
    const { odometer } = meters({ readings: spoiled });
    expect(odometer.dropped).toBe(3);
    expect(odometer.unrecordedBreaks).toEqual([]);
    expect(totalOn(odometer, day('2024-01-01') + 80)).toBe(14_000);
    expect(totalOn(odometer, day('2024-01-01') + 380)).toBe(29_000);
  });

  it('drops an impossible last value', () => {
    const rows = [
      ...steadyReadings('2024-01-01', 20, 20, { km: 50 }),
      km(iso(day('2024-01-01') + 390), 119_500),
    ];
    const { odometer } = meters({ readings: rows });
    expect(odometer.values[odometer.values.length - 1]).toBe(19_000);
  });

  it('keeps values of one day and takes the last of them', () => {
    const { odometer } = meters({
      readings: [km('2024-01-01', 100), km('2024-01-02', 180), km('2024-01-02', 240)],
    });
    expect(pairs(odometer)).toEqual([
      ['2024-01-01', 100],
      ['2024-01-02', 240],
    ]);
    expect(odometer.dropped).toBe(0);
  });

  it('usual use is the middle of many spans', () => {
    expect(usualPerDay([0, 10, 20, 30, 40], [0, 500, 1000, 9999, 2000])).toBe(50);
    expect(usualPerDay([5], [100])).toBeNull();
  });
});

describe('replaced meters', () => {
  const before = [km('2024-01-01', 50_000), km('2024-02-01', 52_000)];
  const after = [km('2024-03-15', 1000), km('2024-04-15', 3000)];
  // by hand: 52 000 → old 53 000 on the day of the swap; new from 10: 1 000 is 990 on, 3 000 is 2 990 on
  const total = [
    ['2024-01-01', 50_000],
    ['2024-02-01', 52_000],
    ['2024-03-01', 53_000],
    ['2024-03-15', 53_990],
    ['2024-04-15', 55_990],
  ];

  it('are added up from the note', () => {
    const { odometer } = meters({
      readings: [...before, ...after],
      services: [swap('2024-03-01', { note: 'cluster failed, old=53,000 new=10' })],
    });
    expect(pairs(odometer)).toEqual(total);
    expect(odometer.offset).toBe(52_990);
    expect(odometer.unrecordedBreaks).toEqual([]);
  });

  it('are added up from two rows of that day, in either order', () => {
    const rows = [swap('2024-03-01', { odometerKm: 53_000 }), swap('2024-03-01', { odometerKm: 10 })];
    for (const services of [rows, [...rows].reverse()])
      expect(pairs(meters({ readings: [...after, ...before], services }).odometer)).toEqual(total);
  });

  it('read a note in miles when that is what fits', () => {
    const note = `old=${53_000 / 1.609344} new=${10 / 1.609344}`;
    const { odometer } = meters({
      readings: [...before, ...after],
      services: [swap('2024-03-01', { note })],
    });
    expect(pairs(odometer)).toEqual(total);
  });

  it('tell an hour meter from an odometer', () => {
    const { odometer, hours } = meters({
      readings: [
        { readOn: '2024-01-01', odometerKm: 50_000, engineHoursH: 1200 },
        { readOn: '2024-02-01', odometerKm: 52_000, engineHoursH: 1250 },
        { readOn: '2024-04-01', odometerKm: 56_000, engineHoursH: 60 },
      ],
      services: [swap('2024-03-01', { note: 'hour meter old=1300 new=0' })],
    });
    expect(pairs(hours).map(([, value]) => value)).toEqual([1200, 1250, 1300, 1360]);
    expect(odometer.values[odometer.values.length - 1]).toBe(56_000);
  });

  it('without values are bridged at the usual use', () => {
    const { odometer } = meters({
      readings: [
        ...steadyReadings('2024-01-01', 10, 10, { km: 50 }, { km: 40_000 }),
        ...steadyReadings('2024-05-01', 10, 10, { km: 50 }, { km: 700 }),
      ],
      services: [swap('2024-04-20', {})],
    });
    // last 44 500 on 31 March; 20 days to the swap at 50 km, then 700 km from nil in 11 days
    const last = odometer.values[odometer.values.length - 1];
    expect(last).toBeCloseTo(44_500 + 1000 + 700 + 4500, 6);
  });

  it('that nobody recorded are seen when the step lasts', () => {
    const { odometer } = meters({
      readings: [
        ...steadyReadings('2024-01-01', 10, 10, { km: 50 }, { km: 40_000 }),
        ...steadyReadings('2024-04-10', 10, 10, { km: 50 }, { km: 100 }),
      ],
    });
    expect(odometer.unrecordedBreaks).toEqual([day('2024-04-10')]);
    expect(odometer.dropped).toBe(0);
    expect(odometer.values[odometer.values.length - 1]).toBeCloseTo(40_000 + 4500 + 500 + 4500, 6);
  });

  it('whose record the values do not bear out change nothing', () => {
    const readings = steadyReadings('2024-01-01', 10, 10, { km: 50 }, { km: 40_000 });
    const { odometer } = meters({ readings, services: [swap('2024-02-15', {})] });
    expect(odometer.values[odometer.values.length - 1]).toBe(44_500);
  });
});

describe('whatever the records', () => {
  const anyReading = fc.record({
    readOn: fc.integer({ min: 0, max: 900 }).map((offset) => iso(day('2023-01-01') + offset)),
    odometerKm: fc.oneof(
      fc.constant(null),
      fc.integer({ min: 0, max: 400_000 }),
      fc.integer({ min: 0, max: 2000 }),
    ),
    engineHoursH: fc.oneof(fc.constant(null), fc.integer({ min: 0, max: 20_000 })),
  });
  const anySwap = fc.record({
    servicedOn: fc.integer({ min: 0, max: 900 }).map((offset) => iso(day('2023-01-01') + offset)),
    work: fc.constant('meter_replaced'),
    note: fc.oneof(
      fc.constant(null),
      fc.constantFrom('old=50000 new=0', 'old=1 new=2', 'new=100', 'old=99 h new=0'),
    ),
    odometerKm: fc.oneof(fc.constant(null), fc.integer({ min: 0, max: 100_000 })),
  });

  it('totals never fall, days rise, and the order of the rows does not matter', () => {
    fc.assert(
      fc.property(
        fc.array(anyReading, { maxLength: 25 }),
        fc.array(anySwap, { maxLength: 3 }),
        fc.boolean(),
        (readings, services, known) => {
          const unit = known ? { inServiceOn: '2022-12-01' } : {};
          const one = meters({ unit, readings, services });
          const other = meters({
            unit,
            readings: [...readings].reverse(),
            services: [...services].reverse(),
          });
          for (const name of ['odometer', 'hours'] as const) {
            const { days, values } = one[name];
            for (let i = 1; i < days.length; i++) {
              expect(days[i]).toBeGreaterThan(days[i - 1]);
              expect(values[i]).toBeGreaterThanOrEqual(values[i - 1]);
            }
            for (const value of values) expect(Number.isFinite(value)).toBe(true);
            expect(pairs(other[name])).toEqual(pairs(one[name]));
          }
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });
});
