import { describe, expect, it } from 'vitest';
import { faultsDuring, oilFaults, saysYes } from '../../../models/oil/chargeFaults.ts';
import { oilEvents } from '../../../models/oil/chargeDrains.ts';
import { poolDuty } from '../../../models/oil/dutyPool.ts';
import { dutyRules } from '../../../models/oil/dutyRules.ts';
import { buildTimeline } from '../../../models/oil/usageTimeline.ts';
import type { Service } from '../../../models/schema/service.ts';
import { defaultSettings } from '../../../models/schema/settings.ts';
import { day, dutyCoefficients, historyOf, iso, steadyReadings, type HistoryParts } from './dutyHistories.ts';

const rules = dutyRules(dutyCoefficients);
const asOf = day('2026-03-31');
const timeline = (parts: HistoryParts) => {
  const history = historyOf(parts);
  const pooled = poolDuty([history], dutyCoefficients, defaultSettings, asOf);
  return buildTimeline(history, pooled, dutyCoefficients, defaultSettings, asOf);
};
const drain = (servicedOn: string, over: Partial<Service> = {}): Partial<Service> => ({
  servicedOn,
  work: 'oil_change',
  oilGrade: '5W-30',
  ...over,
});
const events = (services: readonly Partial<Service>[], engine: HistoryParts['engine'] = {}) =>
  oilEvents(historyOf({ services, engine }), rules, asOf);

describe('what service rows mean for the oil', () => {
  it('a fill clearly below the sump is a top-up, unless the filter was changed with it', () => {
    const small = events([drain('2025-01-01', { oilL: 1 })]);
    expect(small.drains).toEqual([]);
    expect(small.added).toMatchObject([{ day: day('2025-01-01'), liters: 1, grade: '5W-30' }]);
    expect(small.added[0].note).toBe('1 L called an oil change, sump 5 L: taken as a top-up');
    const filtered = events([drain('2025-01-01', { oilL: 1, filterChanged: true })]);
    expect(filtered.drains).toHaveLength(1);
    expect(filtered.drains[0].notes[0]).toContain('the filter was changed');
  });

  it('a full sump with a grade is a drain whatever the text says; an amount alone is not', () => {
    expect(
      events([{ servicedOn: '2025-01-01', work: 'other', oilL: 5, oilGrade: '5W-30' }]).drains,
    ).toHaveLength(1);
    expect(events([{ servicedOn: '2025-01-01', work: 'other', oilL: 5 }]).drains).toHaveLength(0);
    expect(
      events([{ servicedOn: '2025-01-01', work: 'top_up', oilL: 5, oilGrade: '5W-30' }]).drains,
    ).toHaveLength(0);
  });

  it('merges the rows of one drain and keeps what each of them knows', () => {
    const rows = [
      drain('2025-01-01', { oilGrade: null, oilL: 4.8, odometerKm: 10_000 }),
      drain('2025-01-01', { oilCategory: 'current', filterChanged: true }),
      drain('2025-01-03', { oilL: 5, odometerKm: 10_050 }),
    ];
    const expected = {
      day: day('2025-01-01'),
      grade: '5W-30',
      category: 'current',
      filledLiters: 5,
      filterChanged: true,
      odometerKm: 10_000,
    };
    expect(events(rows).drains).toMatchObject([expected]);
    expect(events([...rows].reverse()).drains).toMatchObject([expected]);
    expect(events([rows[0], drain('2025-01-03', { odometerKm: 12_000 })]).drains).toHaveLength(2);
  });

  it('a new engine brings fresh oil; a filter alone does not', () => {
    const found = events([
      { servicedOn: '2025-01-01', work: 'engine' },
      { servicedOn: '2025-05-01', work: 'filter' },
    ]);
    expect(found.drains).toMatchObject([{ engineRenewed: true }]);
    expect(found.filterOnlyDays).toEqual([day('2025-05-01')]);
    expect(found.coverWorkDays).toEqual([day('2025-01-01')]);
  });

  it('a belt running in oil is cover work, a dry one is not', () => {
    const belt: Partial<Service>[] = [{ servicedOn: '2025-01-01', work: 'belt' }];
    expect(events(belt, { timingDrive: 'wet_belt' }).coverWorkDays).toHaveLength(1);
    expect(events(belt, { timingDrive: 'belt' }).coverWorkDays).toHaveLength(0);
  });
});

describe('charges', () => {
  const readings = steadyReadings('2024-01-01', 28, 30, { km: 50, hours: 2, idle: 0.6 });
  const onDay = (offset: number) => iso(day('2024-01-01') + offset);

  it('run from drain to drain with what they went through, by hand', () => {
    const { charges, odometerKm, engineHours } = timeline({
      unit: { inServiceOn: '2024-01-01', duty: 'mixed' },
      readings,
      services: [
        drain(onDay(200), { odometerKm: 10_000, oilL: 5, filterChanged: true }),
        drain(onDay(410), { odometerKm: 20_500, oilGrade: '0W-20' }),
      ],
    });
    expect(charges.map((c) => [c.startBasis, c.endDay - c.startDay, c.grade])).toEqual([
      ['in_service', 200, null],
      ['drain', 210, '5W-30'],
      ['drain', asOf - day(onDay(410)), '0W-20'],
    ]);
    expect(charges.map((c) => c.running)).toEqual([false, false, true]);
    expect(charges.map((c) => c.breakIn)).toEqual([true, true, false]);
    const second = charges[1];
    expect(second.startOdometerKm).toBe(10_000);
    expect(second.endOdometerKm).toBe(20_500);
    // 210 days at 50 km, 2 h of which 0.6 idle: 10 500 km, 126 idle hours, 294 driving hours at 35.7 km/h
    expect(second.exposure.distanceKm).toBeCloseTo(10_500, 6);
    expect(second.exposure.idleHours).toBeCloseTo(126, 6);
    expect(second.exposure.speedKmh).toBeCloseTo(10_500 / 294, 6);
    expect(second.exposure.days).toBe(210);
    expect(second.spread).toMatchObject({ distance: 0, drivingHours: 0, idleHours: 0 });
    expect(second.hiddenDrainChance).toBeLessThan(0.05);
    expect(odometerKm).toBeCloseTo(50 * (asOf - day('2024-01-01')), 0);
    expect(engineHours).toBeCloseTo(2 * (asOf - day('2024-01-01')), 0);
  });

  it('find the drains that are missing from an otherwise regular record', () => {
    const kept = [0, 1, 2, 5, 6, 7, 8].map((n) => drain(onDay(30 + 90 * n), { oilL: 5 }));
    const { charges } = timeline({ unit: { inServiceOn: '2024-01-01' }, readings, services: kept });
    const gap = charges[3];
    expect(gap.hiddenDrains).toBe(2);
    expect(gap.hiddenDrainChance).toBeGreaterThan(0.8);
    expect(gap.notes?.join(' ')).toMatch(/3\.\d usual intervals with no drain on record: 2 drains/);
    for (const other of charges.filter((charge) => charge !== gap))
      expect(other.hiddenDrainChance).toBeLessThan(0.3);
  });

  it('a sample that states the distance on the oil decides', () => {
    const services = [drain(onDay(30)), drain(onDay(330))];
    const sample = (oilKm: number) => [{ sampledOn: onDay(330), odometerKm: 16_500, oilKm }];
    const chance = (samples: HistoryParts['samples']) =>
      timeline({ unit: { inServiceOn: '2024-01-01' }, readings, services, samples }).charges[1]
        .hiddenDrainChance;
    const without = chance([]);
    expect(chance(sample(4000))).toBeGreaterThan(0.8);
    expect(chance(sample(15_000))).toBeLessThan(Math.max(0.01, without));
  });

  it('with no oil change on record at all the drains are not known, and it says so', () => {
    const { charges, recordQuality } = timeline({
      unit: { inServiceOn: '2020-01-01', inServiceOdometerKm: 0 },
      readings,
    });
    expect(charges).toHaveLength(1);
    expect(charges[0].hiddenDrainChance).toBeGreaterThan(0.9);
    expect(charges[0].hiddenDrains).toBeGreaterThan(1);
    expect(charges[0].notes?.[0]).toContain('no oil change on record');
    expect(recordQuality).toBeLessThan(0.5);
    const young = timeline({
      unit: { inServiceOn: onDay(700) },
      readings: steadyReadings(onDay(700), 4, 30, { km: 50 }),
    });
    expect(young.charges[0].hiddenDrainChance).toBeLessThan(0.2);
  });

  it('carry top-ups, notes and the faults found on them', () => {
    const { charges } = timeline({
      unit: { inServiceOn: '2024-01-01' },
      readings,
      services: [
        drain(onDay(100)),
        { servicedOn: onDay(150), work: 'top_up', oilL: 0.9, oilGrade: '5W-30' },
        { servicedOn: onDay(160), work: 'top_up' },
        { servicedOn: onDay(170), work: 'filter' },
        drain(onDay(300)),
        { servicedOn: onDay(420), work: 'thermostat' },
        drain(onDay(500)),
      ],
      findings: [
        { foundOn: onDay(300), finding: 'oil_level_low_l', value: '1.5' },
        { foundOn: onDay(250), finding: 'thermostat_open', value: 'yes' },
        { foundOn: onDay(260), finding: 'ventilation_fault', value: 'no' },
      ],
    });
    expect(charges[1].topUps.map((one) => one.liters)).toEqual([0.9, 1]);
    expect(charges[1].notes).toContain('a top-up without an amount was taken as 1 L');
    expect(charges[1].notes).toContain('1 filter change without oil in between');
    expect(charges[1].faults).toEqual(['oil_level_low', 'thermostat_open']);
    expect(charges[1].levelLowLiters).toBe(1.5);
    // not put right until day 420: the next charge still ran with it, the one after did not
    expect(charges[2].faults).toEqual(['thermostat_open']);
    expect(charges[3].faults).toEqual([]);
  });

  it('end at a disposal and do not run on', () => {
    const { charges, odometerKm } = timeline({
      unit: { inServiceOn: '2024-01-01', disposedOn: onDay(600), status: 'retired' },
      readings: readings.slice(0, 20),
      services: [drain(onDay(100))],
    });
    expect(charges[1]).toMatchObject({ endDay: day(onDay(600)), running: false });
    expect(odometerKm).toBeCloseTo(30_000, -2);
  });

  it('of a used unit begin when it was acquired, with an unknown start', () => {
    const { charges, firstDay } = timeline({
      unit: { inServiceOn: '2018-01-01', acquiredOn: '2024-01-01', acquiredOdometerKm: 120_000 },
      readings: steadyReadings('2024-01-20', 26, 30, { km: 50 }, { km: 120_950 }),
    });
    expect(firstDay).toBe(day('2024-01-01'));
    expect(charges[0]).toMatchObject({
      startBasis: 'first_record',
      startOdometerKm: 120_000,
      breakIn: false,
    });
  });
});

describe('faults', () => {
  it('read yes and no', () => {
    for (const yes of [null, 'yes', 'true', '1', 'stuck', 'ja']) expect(saysYes(yes)).toBe(true);
    for (const no of ['no', 'false', '0', 'Negative', 'OK']) expect(saysYes(no)).toBe(false);
  });
  it('last until put right, one drain further at most', () => {
    const faults = oilFaults(
      historyOf({ findings: [{ foundOn: '2025-03-01', finding: 'ventilation_fault' }] }),
      asOf,
    );
    const names = (from: string, to: string, before: string) =>
      faultsDuring(faults, day(from), day(to), day(before)).names;
    expect(names('2025-01-01', '2025-04-01', '2024-10-01')).toEqual(['ventilation_fault']);
    expect(names('2025-04-01', '2025-07-01', '2025-01-01')).toEqual(['ventilation_fault']);
    expect(names('2025-07-01', '2025-10-01', '2025-04-01')).toEqual([]);
  });
});
