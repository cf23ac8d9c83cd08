import { describe, expect, test } from 'vitest';
import type { Episode, Segment } from '../../../../models/reliability/fleet/episode.ts';
import { dailyUseOf, futureUse } from '../../../../models/reliability/fleet/futureUse.ts';
import { hindcast } from '../../../../models/reliability/hindcast.ts';
import { fleetForecaster } from './fleetForecaster.ts';
import type {
  Forecaster,
  HindcastOrigin,
  HindcastUnit,
} from '../../../../models/reliability/hindcast/hindcastTypes.ts';
import { rivals } from '../../../../models/reliability/hindcast/rivals.ts';
import { scoreForecast } from '../../../../models/reliability/hindcast/scoreForecast.ts';
import type { ScoredUnit } from '../../../../models/reliability/hindcast/scoredUnit.ts';
import { seededRandom } from '../../../../models/numeric/random.ts';
import { invented } from '../fleet/inventedPriors.ts';
import { freeze, odometerFleet } from '../fleet/simulatedFleet.ts';

const stretch = (days: number, distanceKm: number, pastBook = false): Segment => ({
  days,
  distanceKm,
  engineHours: null,
  idleHours: null,
  covariates: [],
  pastBook,
});
const set = (unitNumber: string, segments: readonly Segment[], end: Episode['end']): Episode => ({
  unitNumber,
  family: 'A',
  segments,
  end,
  entry: 'new',
});
const atRisk = (episode: Episode, outcome: HindcastUnit['outcome'], outcomeDays = 365): HindcastUnit => ({
  episode,
  future: [stretch(365, 30_000)],
  useLogSd: 0.2,
  outcome,
  outcomeDays,
});
const origin = (episodes: readonly Episode[], units: readonly HindcastUnit[]): HindcastOrigin => ({
  origin: '2025-03-31',
  horizonDays: 365,
  episodes,
  atRisk: units,
});

describe('rivals, worked by hand', () => {
  const running = set('R', [stretch(1000, 90_000)], 'running');
  const late = set('L', [stretch(500, 45_000), stretch(500, 45_000, true)], 'running');
  const failed = set('F', [stretch(300, 27_000), stretch(700, 63_000, true)], 'failed');
  const frozen = origin([running, late, failed], [atRisk(running, 'ran'), atRisk(late, 'ran')]);

  test('base rate: one and a half failures in 3000 days, over 365 days', () => {
    const { chances } = rivals.baseRate(frozen, seededRandom(1));
    const expected = 1 - Math.exp((-1.5 / 3000) * 365);
    expect(chances).toEqual([expect.closeTo(expected, 12), expect.closeTo(expected, 12)]);
  });

  test('past the book interval: own rate of each side, pulled to all by one failure', () => {
    const overall = 1.5 / 3000;
    const { chances } = rivals.pastBookInterval(frozen, seededRandom(1));
    expect(chances[0]).toBeCloseTo(1 - Math.exp((-1 / (1800 + 1 / overall)) * 365), 12);
    expect(chances[1]).toBeCloseTo(1 - Math.exp((-2 / (1200 + 1 / overall)) * 365), 12);
  });

  test('odometer only: rises with distance since renewal; without failures it is the base rate', () => {
    const { episodes, atRisk: later } = freeze(odometerFleet(2), 120, 12);
    const ages = [60_000, 200_000, 400_000].map((km) =>
      atRisk(set('any', [stretch(1, km)], 'running'), 'ran'),
    );
    const { chances } = rivals.odometerOnly(origin(episodes, ages), seededRandom(1));
    expect(chances[1]).toBeGreaterThan(chances[0]);
    expect(chances[2]).toBeGreaterThan(chances[1]);
    expect(later.length).toBeGreaterThan(100);
    const none = origin([running, late], [atRisk(running, 'ran')]);
    expect(rivals.odometerOnly(none, seededRandom(1)).chances).toEqual(
      rivals.baseRate(none, seededRandom(1)).chances,
    );
  });

  test('no past at all still gives chances', () => {
    const bare = origin([], [atRisk(set('N', [], 'running'), 'ran')]);
    for (const rival of Object.values(rivals)) {
      const { chances, countLow, countHigh } = rival(bare, seededRandom(1));
      expect(chances).toHaveLength(1);
      expect(chances[0]).toBeGreaterThanOrEqual(0);
      expect(chances[0]).toBeLessThanOrEqual(1);
      expect(countLow).toBeLessThanOrEqual(countHigh);
    }
  });
});

describe('scores', () => {
  const unit = (i: number, chance: number, failed: number, runShare = 1): ScoredUnit => ({
    unitNumber: `U${i}`,
    chance,
    failed,
    runShare,
    sinceRenewalKm: i * 1000,
    failedWeight: failed,
    survivedWeight: runShare >= 1 ? 1 - failed : 0,
  });

  test('counts, Brier and log score of three units, worked by hand', () => {
    const score = scoreForecast(
      [unit(1, 0.5, 1), unit(2, 0.2, 0), unit(3, 0.1, 0, 0.5)],
      [{ low: 0, high: 2, observed: 1 }],
      0.2,
      null,
    );
    expect(score).toMatchObject({
      units: 3,
      events: 1,
      expected: expect.closeTo(0.8, 12),
      countCoverage: 1,
      countLow: 0,
      countHigh: 2,
    });
    // the third left half way: it has no weight of its own
    expect(score.brier).toBeCloseTo((0.25 + 0.04) / 2, 12);
    expect(score.brierSkill).toBeCloseTo(1 - 0.145 / 0.2, 12);
    expect(score.logScore).toBeCloseTo(-(Math.log(0.5) + Math.log(0.8)) / 2, 12);
    expect(score.expectedOnRun).toBeCloseTo(0.5 + 0.2 + 1 - Math.sqrt(0.9), 12);
    expect(score.observedOverExpected).toBeCloseTo(1.25, 12);
  });

  test('below 5 failures no area, no ranking, no slope, and it says why', () => {
    const few = Array.from({ length: 40 }, (_, i) => unit(i, i / 50, i >= 36 ? 1 : 0));
    const score = scoreForecast(few, [], null, null);
    expect(score).toMatchObject({
      events: 4,
      auc: null,
      aucSe: null,
      aucWithinAge: null,
      calibrationSlope: null,
      quintiles: null,
      ranks: false,
    });
    expect(score.notes[0]).toContain('Fewer than 5 failures');
  });

  test('5 to 20 failures: area with error, ranking only when its limits leave one half, no slope', () => {
    const sharp = Array.from({ length: 100 }, (_, i) => unit(i, (i + 1) / 200, i >= 90 ? 1 : 0));
    const good = scoreForecast(sharp, [], null, null);
    expect(good.auc).toBe(1);
    expect(good.ranks).toBe(true);
    expect(good.calibrationSlope).toBeNull();
    const blind = Array.from({ length: 100 }, (_, i) =>
      unit(i, ((i * 37) % 100) / 200, i % 10 === 0 ? 1 : 0),
    );
    const none = scoreForecast(blind, [], null, null);
    expect(none.auc! - 1.96 * none.aucSe!).toBeLessThan(0.5);
    expect(none.ranks).toBe(false);
    expect(none.notes.join(' ')).toContain('may be chance');
  });

  test('above 20 failures: slope about 1 for honest chances, quintiles that add up, area within age below the area', () => {
    const random = seededRandom(6);
    const honest = Array.from({ length: 3000 }, (_, i) => {
      const chance = 0.3 * random() ** 2;
      return {
        ...unit(i, chance, random() < chance ? 1 : 0),
        sinceRenewalKm: chance * 1e6 + 20_000 * random(),
      };
    });
    const score = scoreForecast(honest, [], null, null);
    expect(Math.abs(score.calibrationSlope! - 1)).toBeLessThan(3 * score.calibrationSlopeSe!);
    expect(score.quintiles!.reduce((sum, q) => sum + q.observed, 0)).toBe(score.events);
    expect(score.quintiles![4].observed).toBeGreaterThan(score.quintiles![0].observed);
    expect(score.aucWithinAge!).toBeLessThan(score.auc!);
  });

  test('a failure known only by chance counts as that chance', () => {
    const score = scoreForecast([{ ...unit(1, 0.5, 0.4), survivedWeight: 0 }], [], null, null);
    expect(score.events).toBeCloseTo(0.4, 12);
    expect(score.brier).toBeCloseTo(0.25, 12);
  });
});

describe('a fleet on its own past, three origins', () => {
  const fleet = odometerFleet(7);
  const origins = [84, 102, 120].map((month): HindcastOrigin => {
    const { episodes, atRisk: units } = freeze(fleet, month, 12);
    const use = dailyUseOf(episodes);
    return {
      origin: `month ${month}`,
      horizonDays: 365,
      episodes,
      atRisk: units.map(({ episode, failed, planned }) => ({
        episode,
        ...futureUse(episode, use, 365, []),
        outcome: failed ? 'failed' : planned ? 'renewed' : 'ran',
        outcomeDays: failed || planned ? 180 : 365,
      })),
    };
  });
  const forecasters = { sumpwise: fleetForecaster([], invented), ...rivals };
  const result = hindcast(origins, forecasters, seededRandom(3));

  test('every forecaster is scored per origin and over all', () => {
    expect(result.origins).toHaveLength(3);
    for (const scores of [result.pooled, ...result.origins.map((one) => one.scores)])
      expect(Object.keys(scores)).toEqual(['sumpwise', 'baseRate', 'odometerOnly', 'pastBookInterval']);
    expect(result.pooled.sumpwise.units).toBe(origins.reduce((sum, one) => sum + one.atRisk.length, 0));
    expect(result.origins[2].units[0].chances.sumpwise).toBeGreaterThanOrEqual(0);
    expect(result.comparisons).toHaveLength(3);
  });

  test('the model beats the base rate in order and in chances, and holds its level', () => {
    const { sumpwise, baseRate } = result.pooled;
    expect(sumpwise.auc!).toBeGreaterThan(0.75);
    expect(sumpwise.ranks).toBe(true);
    expect(sumpwise.brierSkill!).toBeGreaterThan(0.03);
    expect(baseRate.brierSkill).toBe(0);
    expect(sumpwise.observedOverExpectedLow!).toBeLessThan(1);
    expect(sumpwise.observedOverExpectedHigh!).toBeGreaterThan(1);
    expect(sumpwise.logScore!).toBeLessThan(baseRate.logScore!);
  });

  test('outcomes do not leak into chances', () => {
    const turned = origins.map((one) => ({
      ...one,
      atRisk: one.atRisk.map((unit) => ({ ...unit, outcome: 'failed' as const, outcomeDays: 1 })),
    }));
    const other = hindcast(turned, forecasters, seededRandom(3));
    expect(other.origins.map((one) => one.units.map((unit) => unit.chances))).toEqual(
      result.origins.map((one) => one.units.map((unit) => unit.chances)),
    );
  });

  test('a forecaster that leaves out a unit or says no chance is refused by name', () => {
    const short: Forecaster = () => ({ chances: [], countLow: 0, countHigh: 0 });
    expect(() => hindcast(origins, { short }, seededRandom(1))).toThrow('short: chances must be');
    const wild: Forecaster = ({ atRisk: units }) => ({
      chances: units.map(() => NaN),
      countLow: 0,
      countHigh: 0,
    });
    expect(() => hindcast(origins, { wild }, seededRandom(1))).toThrow(
      'wild: chance must lie from 0 to 1, got NaN',
    );
  });

  test('an origin without units is scored as nothing rather than as NaN', () => {
    const empty = hindcast([origin([], [])], rivals, seededRandom(1));
    expect(empty.pooled.baseRate).toMatchObject({
      units: 0,
      events: 0,
      expected: 0,
      brier: null,
      observedOverExpected: null,
    });
  });
});
