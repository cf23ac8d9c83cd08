import { expect, test } from 'vitest';
import { equivalentKm } from '../../../models/oil/dutyEquivalent.ts';
import { poolDuty } from '../../../models/oil/dutyPool.ts';
import { buildTimeline } from '../../../models/oil/usageTimeline.ts';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';
import { dayFromIso } from '../../../models/schema/day.ts';
import { defaultSettings } from '../../../models/schema/settings.ts';
import { catalogFiles } from '../../../server/catalog.ts';
import { fleetHistoryOf } from '../../simulation/history.ts';
import { sampleFleet, sampleFleets } from '../../simulation/sampleFleet.ts';

const coefficients = coefficientValues(catalogFiles.map((file) => coefficientFile.parse(file)));
const km = 1.609344;

test('idle equivalence: the worked figures of the fleet trade press', () => {
  // 2000 mi with 100 idle hours at 33 mi an hour = 5300 mi; 2291 h at 30 mi an hour = 68 730 mi
  expect(equivalentKm({ distanceKm: 2000 * km, idleHours: 100, ptoHours: 0 }, 33 * km) / km).toBeCloseTo(
    5300,
    6,
  );
  expect(equivalentKm({ distanceKm: 0, idleHours: 2291, ptoHours: 0 }, 30 * km) / km).toBeCloseTo(68_730, 6);
});

const fleet = sampleFleet(sampleFleets.rich);
const asOf = '2024-06-30';
const day = dayFromIso(asOf);
const history = fleetHistoryOf(fleet.rows, asOf);
const pooled = poolDuty(history.units, coefficients, defaultSettings, day);

test('meters on the axis agree with the truth of a simulated fleet', () => {
  let compared = 0;
  for (const unit of history.units) {
    const timeline = buildTimeline(unit, pooled, coefficients, defaultSettings, day);
    if (timeline.firstDay > day - 400 || unit.unit.disposedOn !== null) continue;
    const truth = fleet.truth.units.find(
      (entry) => entry.unitNumber === unit.unit.unitNumber && entry.disposedDay === null,
    );
    // a month whose end lies close to a reading in the middle of the records
    const middle = unit.readings
      .filter((reading) => reading.odometerKm !== null)
      .at(Math.floor(unit.readings.length / 2));
    if (middle === undefined || timeline.odometerKm === null) continue;
    const month = truth?.months.find((entry) => Math.abs(entry.day - dayFromIso(middle.readOn)) <= 15);
    const at = month === undefined ? null : timeline.metersAt(month.day);
    if (month === undefined || at === null) continue;
    expect(Math.abs(at.odometerKm - month.odometerKm)).toBeLessThan(0.02 * month.odometerKm + 600);
    compared += 1;
  }
  expect(compared).toBeGreaterThan(10);
});

test('the order of records changes nothing, and every number is finite', () => {
  for (const unit of history.units.slice(0, 12)) {
    const one = buildTimeline(unit, pooled, coefficients, defaultSettings, day);
    const turned = {
      ...unit,
      services: [...unit.services].reverse(),
      readings: [...unit.readings].reverse(),
      fuel: [...unit.fuel].reverse(),
      findings: [...unit.findings].reverse(),
    };
    const other = buildTimeline(turned, pooled, coefficients, defaultSettings, day);
    // sums may differ in their last bits
    const plain = (value: unknown): string =>
      JSON.stringify(value, (_, part: unknown) =>
        typeof part === 'number' ? Number(part.toPrecision(9)) : part,
      );
    expect(plain(other.charges)).toBe(plain(one.charges));
    expect(plain(other.duty)).toBe(plain(one.duty));
    for (const charge of one.charges)
      for (const value of Object.values(charge.exposure))
        if (value !== null) expect(Number.isFinite(value)).toBe(true);
  }
});

test('a unit whose history has gaps gets wider spreads and a lower record quality, never a better one', () => {
  for (const unit of history.units.slice(0, 12)) {
    const whole = buildTimeline(unit, pooled, coefficients, defaultSettings, day);
    const thin = buildTimeline(
      { ...unit, readings: unit.readings.filter((_, index) => index % 6 === 0), fuel: [] },
      pooled,
      coefficients,
      defaultSettings,
      day,
    );
    expect(thin.recordQuality).toBeLessThanOrEqual(whole.recordQuality + 1e-9);
  }
});
