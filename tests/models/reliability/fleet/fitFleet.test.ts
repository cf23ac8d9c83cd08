import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CovariateSpec } from '../../../../models/reliability/fleet/covariateSpec.ts';
import type { Entry, Episode, Segment } from '../../../../models/reliability/fleet/episode.ts';
import { fitChanges } from '../../../../models/reliability/fleet/fitChanges.ts';
import { fitFleet } from '../../../../models/reliability/fleet/fitFleet.ts';
import { fleetPriorIds, fleetPriorsFrom } from '../../../../models/reliability/fleet/fleetPriors.ts';
import type { FleetForecast, ForecastRequest } from '../../../../models/reliability/fleet/forecast.ts';
import { forecastFleet } from '../../../../models/reliability/fleet/forecastFleet.ts';
import { dailyUseOf, futureUse } from '../../../../models/reliability/fleet/futureUse.ts';
import { renewalBounds } from '../../../../models/reliability/fleet/renewalBounds.ts';
import { seededRandom } from '../../../../models/numeric/random.ts';
import { dutyCovariates, dutyFleet } from './dutyFleet.ts';
import { invented, inventedCoefficients } from './inventedPriors.ts';
import { freeze, odometerFleet } from './simulatedFleet.ts';

fc.configureGlobal({ seed: 20260331 });

const month = (
  distanceKm: number,
  covariates: readonly number[] = [],
  engineHours: number | null = null,
): Segment => ({
  days: 30,
  distanceKm,
  engineHours,
  idleHours: engineHours === null ? null : engineHours / 4,
  covariates,
});
const life = (
  unitNumber: string,
  months: number,
  end: Episode['end'],
  more: Partial<Episode> = {},
): Episode => ({
  unitNumber,
  family: 'A',
  segments: Array.from({ length: months }, () => month(3000)),
  end,
  entry: 'new',
  ...more,
});
const fit = (episodes: readonly Episode[], covariates: readonly CovariateSpec[] = []) =>
  fitFleet({ episodes, covariates, priors: invented, random: seededRandom(1), versionText: 'test' });
const ahead = (episode: Episode, km = 36_000, covariates: readonly number[] = []): ForecastRequest => ({
  episode,
  future: [{ ...month(km, covariates), days: 365 }],
  useLogSd: 0.1,
});
const oddsOf = (forecast: FleetForecast) => forecast.units.map((unit) => unit.probability);
const allFinite = (value: unknown): boolean =>
  typeof value === 'number'
    ? Number.isFinite(value)
    : value instanceof Float64Array || Array.isArray(value)
      ? Array.from(value).every(allFinite)
      : typeof value === 'object' && value !== null
        ? Object.values(value).every(allFinite)
        : true;

describe('few or no failures', () => {
  test('no failure: prior-based ranges that say so; survival without failure lowers the chance', () => {
    const young = Array.from({ length: 5 }, (_, i) => life(`Y${i}`, 20, 'running'));
    const long = Array.from({ length: 60 }, (_, i) => life(`L${i}`, 80, 'running'));
    const little = fit(young);
    const much = fit([...young, ...long]);
    expect(little.failures).toBe(0);
    expect(little.method).toBe('resampled');
    expect(little.messages[0]).toContain('No failure in the records');
    expect(little.ownDataShare).toBeLessThan(0.3);
    const request = [ahead(young[0])];
    const before = forecastFleet(little, request, seededRandom(2)).units[0];
    const after = forecastFleet(much, request, seededRandom(2)).units[0];
    expect(before.low).toBeLessThan(before.probability);
    expect(before.high).toBeGreaterThan(before.probability);
    expect(after.probability).toBeLessThan(before.probability);
    expect(after.ownDataShare).toBeGreaterThan(before.ownDataShare);
  });

  test('no records at all: the prior alone, finite, said so', () => {
    const empty = fit([]);
    expect(empty.messages[0]).toContain('No timing set with any use');
    const forecast = forecastFleet(
      empty,
      [ahead(life('new', 0, 'running')), ahead(life('old', 120, 'running'))],
      seededRandom(2),
    );
    expect(allFinite(forecast)).toBe(true);
    expect(forecast.units[1].probability).toBeGreaterThan(forecast.units[0].probability);
  });

  test('failures known only as a chance count as that much', () => {
    const episodes = Array.from({ length: 30 }, (_, i) => life(`U${i}`, 100, i < 10 ? 'planned' : 'running'));
    const chances = episodes.map((episode) =>
      episode.end === 'planned' ? { ...episode, failureChance: 0.5 } : episode,
    );
    expect(fit(chances).failures).toBe(5);
    const chanceAt = (list: readonly Episode[]) =>
      forecastFleet(fit(list), [ahead(list[20])], seededRandom(2)).units[0].ifNotRenewed.value;
    const none = chanceAt(episodes);
    const half = chanceAt(chances);
    const all = chanceAt(
      episodes.map((episode) => (episode.end === 'planned' ? { ...episode, failureChance: 1 } : episode)),
    );
    expect(half).toBeGreaterThan(none);
    expect(all).toBeGreaterThan(half);
  });
});

describe('a fleet with odometers and renewals only', () => {
  const fleet = freeze(odometerFleet(3), 120, 12);
  const learned = fit(fleet.episodes);
  const use = dailyUseOf(fleet.episodes);
  const requests = fleet.atRisk.map(({ episode }) => ({ episode, ...futureUse(episode, use, 365, []) }));
  const forecast = forecastFleet(learned, requests, seededRandom(2));

  test('one clock, by distance, said so; the shape is steep; nearly all is own data', () => {
    expect(learned.structures.map(({ clock }) => clock.name)).toEqual(['distance']);
    expect(learned.messages).toContain('No engine hours in the records: wear is counted by distance.');
    expect(learned.shape.value).toBeGreaterThan(3.5);
    expect(learned.shape.value).toBeLessThan(6.5);
    expect(learned.ownDataShare).toBeGreaterThan(0.9);
    expect(learned.method).toBe('laplace');
  });

  test('chances rise with the distance since renewal', () => {
    const sets = [0, 30, 60, 90, 120, 150].map((months) =>
      ahead(life('any', months, 'running', { family: 'family 1' })),
    );
    const odds = oddsOf(forecastFleet(learned, sets, seededRandom(4)));
    for (let k = 1; k < odds.length; k++) expect(odds[k]).toBeGreaterThan(odds[k - 1]);
    expect(odds[0]).toBeLessThan(0.01);
    expect(odds[5]).toBeGreaterThan(20 * odds[1]);
  });

  test('more use ahead never lowers a chance; nothing ahead is no chance', () => {
    const set = life('any', 100, 'running', { family: 'family 2' });
    const odds = oddsOf(
      forecastFleet(
        learned,
        [10_000, 30_000, 60_000].map((km) => ahead(set, km)),
        seededRandom(4),
      ),
    );
    expect(odds[1]).toBeGreaterThan(odds[0]);
    expect(odds[2]).toBeGreaterThan(odds[1]);
    const still = forecastFleet(learned, [{ episode: set, future: [], useLogSd: 0 }], seededRandom(4))
      .units[0];
    expect(still).toMatchObject({ probability: 0, low: 0, high: 0, horizonDays: 0, contributions: [] });
  });

  test('causes add up to the whole against the base rate', () => {
    for (const unit of forecast.units) {
      const sum = unit.contributions.reduce((total, { logHazard }) => total + logHazard, unit.baseLogHazard);
      expect(sum).toBeCloseTo(Math.log(-Math.log1p(-unit.probability)), 8);
    }
  });

  test('the count is the sum of the chances, its range spans its mean', () => {
    const sum = oddsOf(forecast).reduce((a, b) => a + b, 0);
    expect(forecast.count.mean).toBeCloseTo(sum, 6);
    expect(forecast.count.low).toBeLessThan(sum);
    expect(forecast.count.high).toBeGreaterThan(sum);
    expect(forecast.count.pmf.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
    expect(forecast.countIfNotRenewed.mean).toBeGreaterThan(forecast.count.mean);
  });

  test('order of the records does not matter, a repeat says the same, a change is named with its reason', () => {
    const again = fit(fleet.episodes);
    expect(again.version).toBe(learned.version);
    expect(oddsOf(forecastFleet(again, requests, seededRandom(2)))).toEqual(oddsOf(forecast));
    expect(fitChanges(learned, again)).toEqual([]);
    const turned = fit([...fleet.episodes].reverse());
    expect(turned.version).toBe(learned.version);
    const back = forecastFleet(turned, [...requests].reverse(), seededRandom(2));
    expect(oddsOf(back).reverse()).toEqual(oddsOf(forecast));
    const later = fit(freeze(odometerFleet(3), 126, 12).episodes);
    expect(later.version).not.toBe(learned.version);
    const changes = fitChanges(learned, later);
    expect(changes.map(({ what }) => what)).toContain('failures');
    expect(changes.every(({ why }) => why.length > 10)).toBe(true);
  });

  test('planned renewals as failures and as censored bound the count ahead', () => {
    const input = {
      episodes: fleet.episodes,
      covariates: [],
      priors: invented,
      random: seededRandom(1),
      versionText: '',
    };
    const bounds = renewalBounds(input, requests.slice(0, 40));
    expect(bounds.asFailures).toBeGreaterThan(bounds.asCensored);
  });

  test('a family without records stands at the fleet, with a wider range', () => {
    const known = ahead(life('any', 110, 'running', { family: 'family 3' }));
    const strange = ahead(life('any', 110, 'running', { family: 'never seen' }));
    const [one, other] = forecastFleet(learned, [known, strange], seededRandom(9)).units;
    expect(other.high / other.low).toBeGreaterThan(one.high / one.low);
  });
});

describe('a fleet with hours, drains and codes', () => {
  const fleet = freeze(dutyFleet(3), 120, 12);
  const learned = fit(fleet.episodes, dutyCovariates);

  test('the wear clock carries the average, effects point where they should', () => {
    const weights = Object.fromEntries(learned.structures.map(({ clock, weight }) => [clock.name, weight]));
    expect(weights.wear).toBeGreaterThan(0.5);
    expect(weights.wear + weights.hours + weights.distance).toBeCloseTo(1, 10);
    const effects = Object.fromEntries(learned.effects.map(({ name, effect }) => [name, effect]));
    expect(effects['oil age'].low).toBeGreaterThan(0);
    expect(effects['code seen'].value).toBeGreaterThan(0);
  });

  test('older oil and a code raise the chance, and are named as causes', () => {
    const set = (covariates: readonly number[]) =>
      life('any', 0, 'running', {
        family: 'family 1',
        segments: Array.from({ length: 80 }, () => month(3000, covariates, 90)),
      });
    const request = (covariates: readonly number[]): ForecastRequest => ({
      episode: set(covariates),
      future: [{ ...month(36_000, covariates, 1080), days: 365 }],
      useLogSd: 0.1,
    });
    const [usual, dirty, coded] = forecastFleet(
      learned,
      [request([0, 0, 0]), request([0.8, 0, 0]), request([0, 0, 1])],
      seededRandom(3),
    ).units;
    expect(dirty.probability).toBeGreaterThan(usual.probability);
    expect(coded.probability).toBeGreaterThan(usual.probability);
    expect(dirty.contributions.find(({ cause }) => cause === 'oil age')!.logHazard).toBeGreaterThan(0.3);
    expect(coded.contributions.find(({ cause }) => cause === 'code seen')!.logHazard).toBeGreaterThan(0.1);
  });
});

describe('anything that records may hold', () => {
  const spec = (kind: CovariateSpec['kind']): CovariateSpec => ({
    name: kind,
    priorMean: 0.5,
    priorSd: 0.5,
    kind,
    direction: 1,
  });
  const amount = fc.oneof(fc.constant(0), fc.double({ min: 0, max: 1e5, noNaN: true }));
  const segment: fc.Arbitrary<Segment> = fc.record({
    days: fc.integer({ min: 0, max: 400 }),
    distanceKm: amount,
    engineHours: fc.oneof(fc.constant(null), amount),
    idleHours: fc.oneof(fc.constant(null), amount),
    covariates: fc
      .tuple(fc.double({ min: -50, max: 50, noNaN: true }), fc.constantFrom(0, 1))
      .map((t) => [...t]),
  });
  const entry: fc.Arbitrary<Entry> = fc.oneof(
    fc.constant<Entry>('new'),
    segment.map((s): Entry => ({ kind: 'used', ...s, logSd: 0.3 })),
    segment.map((s): Entry => ({ kind: 'maybe_renewed_before', probability: 0.5, ...s, logSd: 0 })),
  );
  const episode: fc.Arbitrary<Episode> = fc.record({
    unitNumber: fc.constant('any'),
    family: fc.constantFrom('A', 'B', 'C'),
    segments: fc.array(segment, { maxLength: 5 }),
    end: fc.constantFrom('failed' as const, 'planned' as const, 'running' as const, 'disposed' as const),
    entry,
  });

  test('every fit and forecast is finite, chances lie in 0..1 and inside their ranges', () => {
    fc.assert(
      fc.property(fc.array(episode, { maxLength: 12 }), (episodes) => {
        const covariates = [spec('clock'), spec('evidence')];
        const input = {
          episodes,
          covariates,
          priors: invented,
          random: seededRandom(1),
          versionText: '',
          drawCount: 40,
        };
        const learned = fitFleet(input);
        expect(
          allFinite([
            learned.shape,
            learned.life,
            learned.familyScales,
            learned.effects,
            learned.level,
            learned.baseRatePerDay,
          ]),
        ).toBe(true);
        const asked = episodes.map((one) => ({
          episode: one,
          future: [{ ...month(20_000, [0, 0], 600), days: 365 }],
          useLogSd: 0.2,
        }));
        const { units, count } = forecastFleet(learned, asked, seededRandom(1));
        expect(allFinite([units, count])).toBe(true);
        for (const unit of units) {
          expect(unit.low).toBeGreaterThanOrEqual(0);
          expect(unit.high).toBeLessThanOrEqual(1);
          expect(unit.probability).toBeGreaterThanOrEqual(unit.low);
          expect(unit.probability).toBeLessThanOrEqual(unit.high);
          expect(unit.ownDataShare).toBeGreaterThanOrEqual(0);
          expect(unit.ownDataShare).toBeLessThanOrEqual(1);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('identical failures, one family, evidence in every failure: priors hold the answer', () => {
    const same = Array.from({ length: 8 }, (_, i) => life(`U${i}`, 50, 'failed'));
    expect(fit(same).shape.value).toBeLessThan(8);
    const apart = Array.from({ length: 30 }, (_, i) =>
      life(`U${i}`, 0, i < 10 ? 'failed' : 'running', { segments: [month(90_000, [i < 10 ? 1 : 0])] }),
    );
    const learned = fit(apart, [{ ...spec('evidence'), priorMean: 1, priorSd: 0.7 }]);
    expect(learned.effects[0].effect.value).toBeGreaterThan(1);
    expect(learned.effects[0].effect.high).toBeLessThan(5);
  });

  test('impossible episodes and coefficients are refused by unit and field', () => {
    expect(() => fit([life('U7', 1, 'running', { segments: [month(-5)] })])).toThrow(
      'unit U7: segment 0 distanceKm must be 0 or above, got -5',
    );
    expect(() => fit([life('U8', 1, 'running', { failureChance: 2 })])).toThrow(
      'unit U8: failureChance must lie from 0 to 1, got 2',
    );
    expect(() => fit([life('U9', 1, 'running')], dutyCovariates)).toThrow(
      'unit U9: segment 0 covariates must have 3 values, got 0',
    );
    expect(() => fleetPriorsFrom({ ...inventedCoefficients, [fleetPriorIds.lifeKm]: 0 })).toThrow(
      'coefficient failure.life_km must be above 0, got 0',
    );
  });
});
