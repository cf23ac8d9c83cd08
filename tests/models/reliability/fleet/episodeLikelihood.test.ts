import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Clock } from '../../../../models/reliability/fleet/clocks.ts';
import { compileFleet } from '../../../../models/reliability/fleet/compiledFleet.ts';
import type { CovariateSpec } from '../../../../models/reliability/fleet/covariateSpec.ts';
import type { Entry, Episode, Segment } from '../../../../models/reliability/fleet/episode.ts';
import {
  episodeLogLikelihood,
  episodeWorkFor,
} from '../../../../models/reliability/fleet/episodeLikelihood.ts';
import {
  addPriors,
  layoutFor,
  localParameters,
  structureLogPosterior,
  structurePosterior,
} from '../../../../models/reliability/fleet/structurePosterior.ts';
import { cholesky, inverseOfFactor } from '../../../../models/numeric/cholesky.ts';
import { minimise } from '../../../../models/numeric/minimise.ts';
import { numbers, reference, relativeMiss } from '../reference.ts';
import { invented } from './inventedPriors.ts';

fc.configureGlobal({ seed: 20260331 });

/** Distance itself as the clock, one lifetime = one unit of distance. */
const plainClock: Clock = {
  name: 'distance',
  unit: 'km',
  withCovariates: true,
  withIdleWeight: false,
  life: { mean: 0, sd: Infinity },
  shape: { mean: Math.log(2.5), sd: 0.3 },
  use: (part) => ({ full: part.distanceKm, idle: 0 }),
};
const effect = (name: string, kind: CovariateSpec['kind']): CovariateSpec => ({
  name,
  priorMean: 0,
  priorSd: 0.5,
  kind,
  direction: 0,
});
const stretch = (distanceKm: number, covariates: readonly number[] = [], days = 1): Segment => ({
  days,
  distanceKm,
  engineHours: null,
  idleHours: null,
  covariates,
});
const used = (distanceKm: number, covariates: readonly number[] = [], logSd = 0): Entry => ({
  kind: 'used',
  days: 0,
  distanceKm,
  engineHours: null,
  idleHours: null,
  logSd,
  covariates,
});

test('damage clock, 8 vehicles with delayed entry (likelihood by R): contributions, MAP, Laplace errors', () => {
  const { damageClock } = reference.truncation;
  const { data } = damageClock;
  const specs = [effect('x1', 'clock'), effect('x2', 'clock')];
  const episodes = [...new Set(data.id)].map((id): Episode => {
    const rows = data.id.flatMap((each, k) => (each === id ? [k] : []));
    const z = (k: number) => [data.x1[k], data.x2[k]];
    const first = rows[0];
    return {
      unitNumber: String(id),
      family: 'A',
      // the density is per unit of time, one unit a day
      segments: rows.map((k) => stretch(data.to[k] - data.from[k], z(k), data.to[k] - data.from[k])),
      end: rows.some((k) => data.event[k] === 1) ? 'failed' : 'running',
      entry: data.from[first] > 0 ? used(data.from[first], z(first)) : 'new',
    };
  });
  const fleet = compileFleet(episodes, plainClock, specs, () => 0);
  const layout = layoutFor(plainClock, specs, 1, invented);
  const work = episodeWorkFor(fleet);
  const vector = ([shape, scale, ...effects]: number[]) => Float64Array.of(shape, scale, scale, ...effects);
  const local = localParameters(layout, vector(damageClock.at), 0);
  const each = episodes.map((_, e) => episodeLogLikelihood(fleet, e, local, work, true));
  expect(each[1]).toBeCloseTo(-0.612821869979669, 12);
  expect(relativeMiss(each, damageClock.each)).toBeLessThan(1e-12);

  // with one family and no prior on the fleet's scale, a wide spread leaves the family's scale free
  const evaluate = structurePosterior(fleet, layout, 1);
  const found = minimise(evaluate, vector([Math.log(2), Math.log(100), 0, 0]));
  const free = [0, 2, 3, 4];
  expect(
    relativeMiss(
      free.map((k) => found.at[k]),
      damageClock.map,
    ),
  ).toBeLessThan(1e-6);
  expect(found.at[1]).toBeCloseTo(found.at[2], 6);
  const inverse = inverseOfFactor(cholesky(found.hessian, 5)!, 5);
  expect(
    relativeMiss(
      free.map((k) => Math.sqrt(inverse[k * 6])),
      damageClock.se,
    ),
  ).toBeLessThan(1e-4);
});

test('the 16 rows with delayed entry and inspections give the same contributions as plain lifetimes', () => {
  const { data, each } = reference.truncation.mixed;
  const high = numbers(data.high);
  const episodes = data.entry.map((entry, i): Episode => {
    const exact = data.low[i] === high[i];
    const found = !exact && high[i] < Infinity;
    const parts = [data.low[i] - entry, ...(found ? [high[i] - data.low[i]] : [])];
    return {
      unitNumber: String(i),
      family: 'A',
      segments: parts.map((length) => stretch(length, [], length)),
      end: exact || found ? 'failed' : 'running',
      entry: entry > 0 ? used(entry) : 'new',
      intervalFound: found ? { lastOkSegment: 0 } : undefined,
    };
  });
  const fleet = compileFleet(episodes, plainClock, [], () => 0);
  const layout = layoutFor(plainClock, [], 1, invented);
  const local = localParameters(layout, Float64Array.of(Math.log(2), 0, Math.log(100)), 0);
  const work = episodeWorkFor(fleet);
  const mine = episodes.map((_, e) => episodeLogLikelihood(fleet, e, local, work, false));
  expect(relativeMiss(mine, each)).toBeLessThan(1e-10);
});

test('evidence multiplies the hazard of its own stretch, worked by hand', () => {
  const specs = [effect('code', 'evidence')];
  const episode: Episode = {
    unitNumber: '1',
    family: 'A',
    segments: [stretch(50, [0]), stretch(30, [0]), stretch(20, [1], 10)],
    end: 'failed',
    entry: 'new',
  };
  const fleet = compileFleet([episode], plainClock, specs, () => 0);
  expect(fleet.full).toEqual(Float64Array.of(80, 20));
  const layout = layoutFor(plainClock, specs, 1, invented);
  const local = localParameters(layout, Float64Array.of(Math.log(2), 0, Math.log(100), 0.7), 0);
  const hazard = 0.64 + Math.exp(0.7) * 0.36;
  const rate = Math.log((2 / 100) * 1 * 2) + 0.7;
  expect(episodeLogLikelihood(fleet, 0, local, episodeWorkFor(fleet), false)).toBeCloseTo(rate - hazard, 12);
});

test('a perhaps renewed set is the mixture of its possible ages, worked by hand', () => {
  const entry: Entry = {
    kind: 'maybe_renewed_before',
    probability: 0.5,
    days: 0,
    distanceKm: 100,
    engineHours: null,
    idleHours: null,
    logSd: 0,
  };
  const episode: Episode = { unitNumber: '1', family: 'A', segments: [stretch(20)], end: 'running', entry };
  const fleet = compileFleet([episode], plainClock, [], () => 0);
  const layout = layoutFor(plainClock, [], 1, invented);
  const local = localParameters(layout, Float64Array.of(Math.log(2), 0, Math.log(100)), 0);
  const survive = (age: number) => Math.exp(age * age - (age + 0.2) ** 2);
  const expected =
    0.5 * survive(1) + (0.5 / 3) * [1 / 6, 1 / 2, 5 / 6].reduce((sum, age) => sum + survive(age), 0);
  expect(episodeLogLikelihood(fleet, 0, local, episodeWorkFor(fleet), false)).toBeCloseTo(
    Math.log(expected),
    12,
  );
});

const use = fc.record({
  days: fc.integer({ min: 1, max: 90 }),
  distanceKm: fc.double({ min: 0, max: 60, noNaN: true }),
  engineHours: fc.double({ min: 0, max: 60, noNaN: true }),
  idleHours: fc.double({ min: 0, max: 40, noNaN: true }),
  covariates: fc
    .tuple(
      fc.double({ min: -1, max: 1, noNaN: true }),
      fc.constantFrom(0, 1),
      fc.double({ min: -1, max: 1, noNaN: true }),
    )
    .map((t) => [...t]),
});
const anyEntry: fc.Arbitrary<Entry> = fc.oneof(
  fc.constant<Entry>('new'),
  use.map((u): Entry => ({ kind: 'used', ...u, logSd: 0.2 })),
  use.map((u): Entry => ({ kind: 'maybe_renewed_before', probability: 0.4, ...u, logSd: 0.1 })),
);
const anyEpisode = fc
  .record({
    segments: fc.array(use, { minLength: 1, maxLength: 4 }),
    end: fc.constantFrom('failed' as const, 'planned' as const, 'running' as const),
    chance: fc.constantFrom(undefined, 0.3),
    entry: anyEntry,
    family: fc.constantFrom('A', 'B'),
    found: fc.boolean(),
  })
  .map(({ segments, end, chance, entry, family, found }): Episode => ({
    unitNumber: 'any',
    family,
    segments: [
      ...segments,
      { days: 10, distanceKm: 5, engineHours: 5, idleHours: 1, covariates: [0.2, 0, -0.1] },
    ],
    end,
    failureChance: end === 'planned' ? chance : undefined,
    entry,
    intervalFound: end === 'failed' && found ? { lastOkSegment: segments.length - 2 } : undefined,
  }));

test('gradient and Hessian of the posterior are those of its value (central differences)', () => {
  const specs = [effect('oil age', 'clock'), effect('code', 'evidence'), effect('fuel', 'clock')];
  const clock: Clock = {
    ...plainClock,
    withIdleWeight: true,
    life: { mean: 4, sd: 0.7 },
    use: (part) => ({ full: part.distanceKm, idle: part.idleHours ?? 0 }),
  };
  const layout = layoutFor(clock, specs, 2, invented);
  const near = (middle: number) => fc.double({ min: middle - 0.4, max: middle + 0.4, noNaN: true });
  const parameters = fc.tuple(near(0.7), near(0), near(0), near(0), near(0), near(0), near(-0.7), near(0.5));
  fc.assert(
    fc.property(fc.array(anyEpisode, { minLength: 1, maxLength: 5 }), parameters, (episodes, start) => {
      const fleet = compileFleet(episodes, clock, specs, (family) => (family === 'A' ? 0 : 1));
      const evaluate = structurePosterior(fleet, layout, 0.3);
      const at = Float64Array.from(start);
      const size = layout.size;
      const gradient = new Float64Array(size);
      const hessian = new Float64Array(size * size);
      const value = evaluate(at, gradient, hessian);
      expect(structureLogPosterior(fleet, layout)(at, 0.3)).toBeCloseTo(-value, 9);
      fc.pre(value < 1e4);
      const [up, down, unused] = [
        new Float64Array(size),
        new Float64Array(size),
        new Float64Array(size * size),
      ];
      const step = 1e-5;
      const reach = 1 + Math.abs(value) + Math.hypot(...hessian);
      for (let j = 0; j < size; j++) {
        const above = evaluate(
          at.map((v, k) => (k === j ? v + step : v)),
          up,
          unused,
        );
        const below = evaluate(
          at.map((v, k) => (k === j ? v - step : v)),
          down,
          unused,
        );
        expect(Math.abs((above - below) / (2 * step) - gradient[j])).toBeLessThan(1e-6 * reach);
        for (let k = j; k < size; k++)
          expect(Math.abs((up[k] - down[k]) / (2 * step) - hessian[k * size + j])).toBeLessThan(1e-6 * reach);
      }
    }),
    { numRuns: 60 },
  );
});

test('priors alone: value, worked by hand', () => {
  const layout = layoutFor(plainClock, [effect('x', 'clock')], 1, invented);
  const at = Float64Array.of(Math.log(2.5) + 0.3, 0.4, 0.6, 0.5);
  expect(addPriors(layout, 0.2, at, null, null)).toBeCloseTo(0.5 + 0.5 + 0.5, 12);
});
