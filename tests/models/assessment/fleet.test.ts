import { describe, expect, test } from 'vitest';
import { assessFleet } from '../../../models/assessment/assessFleet.ts';
import { dutyExposure, withIdleShare } from '../../../models/assessment/dutyExposure.ts';
import { projectWear } from '../../../models/assessment/projectWear.ts';
import { workingDays } from '../../../models/assessment/siteRoom.ts';
import { coefficientFile, coefficientValues } from '../../../models/schema/coefficient.ts';
import { dayFromIso } from '../../../models/schema/day.ts';
import { unitRates } from '../../../models/oil/exposure.ts';
import type { DutyPicture } from '../../../models/oil/charge.ts';
import { catalogFiles } from '../../../server/catalog.ts';
import { fleetModels } from '../../../server/fleetModels.ts';
import { fleetHistoryOf } from '../../simulation/history.ts';
import { simulateFleet } from '../../simulation/simulateFleet.ts';
import { sparseFleet } from '../../simulation/sparse.ts';
import { isoFromDay } from '../../../models/schema/day.ts';
import { stateOn, unitTruth } from '../../simulation/truth.ts';

const coefficients = coefficientValues(catalogFiles.map((file) => coefficientFile.parse(file)));
const models = fleetModels(coefficients);

const highway: DutyPicture = {
  kmPerDay: 90,
  engineHoursPerDay: 1.15,
  idleHoursPerDay: 0.09,
  ptoHoursPerDay: 0,
  idleShare: 0.08,
  speedKmh: 85,
  tripKm: 60,
  soakedStartsPerDay: 1.5,
  towingShare: 0,
  dustShare: 0,
  ambientByMonthC: new Array<number>(12).fill(15),
  litersPer100Km: 9,
  severe: false,
  severeReasons: [],
  inferred: [],
  useLogSd: 0.1,
  equivalentKmPerDay: 94,
};
const patrol: DutyPicture = {
  ...highway,
  kmPerDay: 66,
  engineHoursPerDay: 5,
  idleHoursPerDay: 3.35,
  idleShare: 0.67,
  speedKmh: 40,
  tripKm: 12,
  soakedStartsPerDay: 2,
  litersPer100Km: 13,
  severe: true,
};
const fill = { kv100: 10.2, baseNumber: 8, acidNumber: 1.5, dispersancyFactor: 1, chainWearFactor: 1 };
const clean = { sludge: 0, chainPercent: 0, phaserShare: 0 };

describe('orders of magnitude that a practitioner would check', () => {
  const run = (duty: DutyPicture, fuelSystem: 'PFI' | 'GDI', intervalKm: number, km: number) =>
    projectWear(
      clean,
      {
        duty,
        engine: { fuelSystem, displacementL: 3, sumpLiters: 5.5, fuelSulfurPpm: 10 },
        fill,
        rates: unitRates,
        coefficients,
        fromDay: dayFromIso('2024-01-01'),
      },
      intervalKm / duty.kmPerDay,
      km / duty.kmPerDay,
    );

  test('a highway unit at its book interval shows almost no sludge at 100 000 km', () => {
    expect(run(highway, 'PFI', 12_000, 100_000).sludge).toBeLessThan(0.3);
  });

  test('an idling patrol unit at twice the interval is in trouble within 30 000 to 60 000 km', () => {
    expect(run(patrol, 'GDI', 16_000, 60_000).sludge).toBeGreaterThan(4);
    expect(run(patrol, 'GDI', 2_700, 60_000).sludge).toBeLessThan(0.5);
  });

  test('halving the interval never raises wear', () => {
    for (const interval of [4_000, 8_000, 16_000]) {
      const [whole, half] = [run(patrol, 'GDI', interval, 80_000), run(patrol, 'GDI', interval / 2, 80_000)];
      expect(half.sludge).toBeLessThanOrEqual(whole.sludge + 1e-9);
      expect(half.chainPercent!).toBeLessThanOrEqual(whole.chainPercent! + 1e-9);
      expect(half.phaserShare!).toBeLessThanOrEqual(whole.phaserShare! + 1e-9);
    }
  });
});

test('duty of days to come: worked by hand', () => {
  expect(dutyExposure(highway, 19_000, 30)).toMatchObject({
    distanceKm: 2700,
    idleHours: 2.6999999999999997,
    days: 30,
  });
  const less = withIdleShare(patrol, 0.25);
  expect(less.engineHoursPerDay).toBeCloseTo(1.65 / 0.75, 9);
  expect(less.idleHoursPerDay / less.engineHoursPerDay).toBeCloseTo(0.25, 9);
  expect([
    workingDays('mon-fri'),
    workingDays('mon,tue,sat'),
    workingDays(null),
    workingDays('sat-mon'),
  ]).toEqual([5, 3, 5, 3]);
});

/** Spearman rank correlation. */
function rankCorrelation(a: readonly number[], b: readonly number[]): number {
  const ranks = (values: readonly number[]): number[] => {
    const order = values.map((_, index) => index).sort((x, y) => values[x] - values[y]);
    const rank = new Array<number>(values.length);
    order.forEach((index, place) => (rank[index] = place));
    return rank;
  };
  const [x, y] = [ranks(a), ranks(b)];
  const mean = (a.length - 1) / 2;
  let [cross, own, other] = [0, 0, 0];
  for (let i = 0; i < x.length; i += 1) {
    cross += (x[i] - mean) * (y[i] - mean);
    own += (x[i] - mean) ** 2;
    other += (y[i] - mean) ** 2;
  }
  return cross / Math.sqrt(own * other);
}

describe('against fleets whose truth is known, with other physics than the models', () => {
  test('sludge and elongation rank as the truth does, and ranges hold', () => {
    const fleet = simulateFleet({ seed: 22, units: 60, years: 6, startOn: '2018-01-01' });
    const asOf = '2023-12-31';
    const day = dayFromIso(asOf);
    const { assessment } = assessFleet(fleetHistoryOf(fleet.rows, asOf), models, 365);
    const pairs = { sludge: [] as number[][], chain: [] as number[][] };
    for (const unit of assessment.units) {
      const truth = unitTruth(fleet.truth, unit.unitNumber, day);
      const state = truth === undefined ? undefined : stateOn(truth, day);
      if (state === undefined) continue;
      if (unit.sludge !== null)
        pairs.sludge.push([unit.sludge.index, unit.sludge.low, unit.sludge.high, state.sludge]);
      if (unit.chain !== null && state.chainPercent !== null)
        pairs.chain.push([unit.chain.elongationPercent, unit.chain.low, unit.chain.high, state.chainPercent]);
    }
    for (const list of [pairs.sludge, pairs.chain]) {
      expect(list.length).toBeGreaterThan(20);
      expect(
        rankCorrelation(
          list.map((row) => row[0]),
          list.map((row) => row[3]),
        ),
      ).toBeGreaterThan(0.6);
      const covered =
        list.filter(([, low, high, truth]) => low - 0.02 <= truth && truth <= high + 0.02).length /
        list.length;
      expect(covered).toBeGreaterThan(0.55);
    }
  });

  test('odometers and renewals alone: chances are finite, differ, and rise with distance since renewal', () => {
    const fleet = sparseFleet({ seed: 4, units: 160, years: 10 });
    const asOf = isoFromDay(fleet.truth.endDay - 365);
    const { assessment } = assessFleet(fleetHistoryOf(fleet.rows, asOf), models, 365);
    const chances = assessment.units.map((unit) => unit.failure!.probability);
    expect(new Set(chances).size).toBeGreaterThan(100);
    for (const chance of chances) expect(chance > 0 && chance < 1).toBe(true);
    const since = assessment.units.map((unit) => {
      const truth = fleet.truth.units.find((entry) => entry.unitNumber === unit.unitNumber)!;
      const renewed = truth.failures
        .filter((failure) => failure.day <= fleet.truth.endDay - 365 && failure.recorded)
        .at(-1);
      return unit.odometerKm! - (renewed?.odometerKm ?? 0);
    });
    expect(rankCorrelation(chances, since)).toBeGreaterThan(0.5);
    expect(assessment.units.every((unit) => unit.failure!.ownDataShare > 0.3)).toBe(true);
  });
});
