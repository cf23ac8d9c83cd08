import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countInterval } from '../../../../models/reliability/counts/countInterval.ts';
import { poissonBinomial } from '../../../../models/reliability/counts/poissonBinomial.ts';
import type { Episode } from '../../../../models/reliability/fleet/episode.ts';
import { clocksFor, hoursRuleFrom } from '../../../../models/reliability/fleet/clocks.ts';
import { learnedPull } from '../../../../models/reliability/fleet/learnedPull.ts';
import { leftOutHazards } from '../../../../models/reliability/fleet/leftOutHazards.ts';
import { fitStructure } from '../../../../models/reliability/fleet/structureFit.ts';
import { layoutFor } from '../../../../models/reliability/fleet/structurePosterior.ts';
import {
  compileWindows,
  trainingWindows,
  windowHazards,
} from '../../../../models/reliability/fleet/trainingWindows.ts';
import { yearSpread } from '../../../../models/reliability/fleet/yearSpread.ts';
import { seededRandom } from '../../../../models/numeric/random.ts';
import { invented } from './inventedPriors.ts';

fc.configureGlobal({ seed: 20260331 });

const poisson = (mean: number) => {
  const pmf = [Math.exp(-mean)];
  for (let k = 1; k < 60; k++) pmf.push((pmf[k - 1] * mean) / k);
  return pmf;
};

describe('80 % range of a count', () => {
  test('worked by hand: Poisson with mean 4 has 0.798 from 2 to 6 and 0.857 from 2 to 7', () => {
    expect(countInterval(poisson(4))).toEqual({ low: 2, high: 6 });
    expect(countInterval([1])).toEqual({ low: 0, high: 0 });
    // 0 alone holds 0.78 but not the mean
    expect(countInterval([0.78, 0.17, 0.05])).toEqual({ low: 0, high: 1 });
  });

  test('holds the mean and 75 % or more, whatever the chances', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 60 }), (chances) => {
        const pmf = poissonBinomial(chances);
        const { low, high } = countInterval(pmf);
        expect(pmf.slice(low, high + 1).reduce((a, b) => a + b, 0)).toBeGreaterThan(0.75 - 1e-9);
        const mean = chances.reduce((a, b) => a + b, 0);
        expect(low).toBeLessThanOrEqual(mean + 1);
        expect(high).toBeGreaterThanOrEqual(mean - 1);
      }),
    );
  });
});

describe('pull to the base rate', () => {
  const prior = invented.baseRatePull;
  /** windows of a year whose true hazard goes by the model's to a power */
  const windows = (count: number, slope: number, seed = 3) => {
    const random = seededRandom(seed);
    const hazards = Float64Array.from({ length: count }, () => 0.05 * Math.exp(2 * (random() - 0.5) * 2));
    const failed = hazards.map((hazard) => (random() < 0.05 * (hazard / 0.05) ** slope ? 1 : 0));
    const seen = failed.reduce((a, b) => a + b, 0);
    return {
      hazards,
      failed,
      days: new Float64Array(count).fill(365),
      baseRatePerDay: seen / (365 * count),
      trust: 5,
    };
  };

  test('without windows it is the prior cut off at 0 and 0.7', () => {
    const none = new Float64Array(0);
    const pull = learnedPull(
      { hazards: none, failed: none, days: none, baseRatePerDay: 0, trust: 5 },
      { mean: 0.3, sd: 0.05 },
    );
    expect(pull).toBeCloseTo(0.3, 6);
  });

  test('chances that prove too steep are pulled more, chances that hold are left; the more failures the surer', () => {
    expect(learnedPull(windows(20_000, 1), prior)).toBeLessThan(0.08);
    const flat = learnedPull(windows(20_000, 0.5), prior);
    expect(flat).toBeGreaterThan(0.4);
    expect(flat).toBeLessThan(0.6);
    const few = learnedPull(windows(300, 0.5), prior);
    expect(few).toBeGreaterThan(0.1);
    expect(few).toBeLessThan(flat);
  });
});

describe('spread of years', () => {
  const prior = invented.yearSpread;

  test('without years it is the prior’s root mean square e^(μ + σ²)', () => {
    // moment of the log-normal law; the grid reaches three standard deviations, so a little below
    expect(yearSpread([], [], { mean: Math.log(0.1), sd: 0.3 })).toBeCloseTo(0.1 * Math.exp(0.3 ** 2), 3);
  });

  test('even years say little spread, years of half and double say much; a year of nothing expected says nothing', () => {
    const even = yearSpread([30, 31, 29, 30, 30, 31], [30, 30, 30, 30, 30, 30], prior);
    const wild = yearSpread([12, 55, 20, 48, 15, 40], [30, 30, 30, 30, 30, 30], prior);
    expect(even).toBeLessThan(0.1);
    // sample coefficient of variation 0.55, Poisson's part 0.18
    expect(wild).toBeGreaterThan(0.35);
    expect(wild).toBeLessThan(0.7);
    expect(yearSpread([30, 0], [30, 0], prior)).toBe(yearSpread([30], [30], prior));
  });

  test('is finite and above 0 for any years', () => {
    const amount = fc.double({ min: 0, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(amount, amount), { maxLength: 20 }), (years) => {
        const spread = yearSpread(
          years.map(([seen]) => seen),
          years.map(([, expected]) => expected),
          prior,
        );
        expect(spread).toBeGreaterThan(0);
        expect(spread).toBeLessThan(10);
      }),
    );
  });
});

describe('windows of the past', () => {
  const segment = (days: number, distanceKm: number) => ({
    days,
    distanceKm,
    engineHours: null,
    idleHours: null,
    covariates: [],
  });
  const random = seededRandom(8);
  const episodes = Array.from({ length: 24 }, (_, i): Episode => {
    const years = 1 + Math.floor(random() * 6);
    const failed = i % 4 === 0;
    return {
      unitNumber: `U${i}`,
      family: i % 2 === 0 ? 'a' : 'b',
      segments: Array.from({ length: years }, () => segment(365, 20_000 + 40_000 * random())),
      end: failed ? 'failed' : 'running',
      entry: 'new',
      endedDaysAgo: failed ? 365 : 0,
    };
  });

  test('are years counted back from today', () => {
    const { days, yearsAgo, failed } = trainingWindows([
      {
        ...episodes[0],
        segments: [segment(100, 5000), segment(365, 9000), segment(20, 900)],
        endedDaysAgo: 345,
      },
    ]);
    expect([...days]).toEqual([100, 365, 20]);
    expect([...yearsAgo]).toEqual([2, 1, 0]);
    expect([...failed]).toEqual([0, 0, 1]);
  });

  test('hazards without the own set are those of a fit that leaves it out, to first order', () => {
    const [clock] = clocksFor(invented, hoursRuleFrom([], invented), 0);
    const familyOf = (family: string) => (family === 'a' ? 0 : 1);
    const fitOf = (chosen: readonly Episode[]) => {
      const compiled = compileWindows(trainingWindows(chosen), clock, [], familyOf);
      const layout = layoutFor(clock, [], 2, invented);
      return { ...fitStructure(clock, compiled, layout, invented.familySpread), compiled, layout };
    };
    const whole = fitOf(episodes);
    const first = leftOutHazards(whole.compiled, whole.layout, whole.best);
    const inside = windowHazards(whole.compiled, whole.layout, whole.best.mode);
    let from = 0;
    episodes.forEach((episode, e) => {
      const count = episode.segments.length;
      const mine = (list: Float64Array) => list.slice(from, from + count).reduce((a, b) => a + b, 0);
      if (e % 4 < 2) {
        const without = fitOf(episodes.filter((_, k) => k !== e));
        const alone = compileWindows(trainingWindows([episode]), clock, [], familyOf);
        const exact = windowHazards(alone, without.layout, without.best.mode).reduce((a, b) => a + b, 0);
        const miss = Math.abs(Math.log(mine(first) / exact));
        expect(miss).toBeLessThan(0.5 * Math.abs(Math.log(mine(inside) / exact)) + 0.02);
      }
      from += count;
    });
  });
});
