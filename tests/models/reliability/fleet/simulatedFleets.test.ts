import { describe, expect, test } from 'vitest';
import type { CovariateSpec } from '../../../../models/reliability/fleet/covariateSpec.ts';
import { fitFleet } from '../../../../models/reliability/fleet/fitFleet.ts';
import { forecastFleet } from '../../../../models/reliability/fleet/forecastFleet.ts';
import { dailyUseOf, futureUse } from '../../../../models/reliability/fleet/futureUse.ts';
import { seededRandom } from '../../../../models/numeric/random.ts';
import { areaUnderCurve } from '../../../../models/reliability/scoring/areaUnderCurve.ts';
import { observedOverExpected } from '../../../../models/reliability/scoring/observedOverExpected.ts';
import { dutyCovariates, dutyFleet } from './dutyFleet.ts';
import { invented } from './inventedPriors.ts';
import { freeze, odometerFleet } from './simulatedFleet.ts';
import type { SimulatedFleet } from './simulatedFleet.ts';

/** Ten seeds in the ordinary run, fifty in the soak. */
const soak = process.env.SOAK === '1';
const seeds = Array.from({ length: soak ? 50 : 10 }, (_, i) => i + 1);

interface Outcome {
  readonly failures: number;
  readonly observed: number;
  readonly expected: number;
  readonly inCountRange: boolean;
  readonly levelHolds: boolean;
  readonly auc: number;
  readonly scalesInRange: readonly boolean[];
}

/** Frozen after ten years, next year predicted from projected use, then compared with what the simulation brought. */
function nextYear(fleet: SimulatedFleet, covariates: readonly CovariateSpec[], seed: number): Outcome {
  const { episodes, atRisk } = freeze(fleet, 120, 12);
  const fit = fitFleet({
    episodes,
    covariates,
    priors: invented,
    random: seededRandom(seed),
    versionText: '',
  });
  const use = dailyUseOf(episodes.filter(({ end }) => end === 'running'));
  const requests = atRisk.map(({ episode }) => ({ episode, ...futureUse(episode, use, 365, covariates) }));
  const { units, count } = forecastFleet(fit, requests, seededRandom(seed + 1));
  const failed = atRisk.map((one) => (one.failed ? 1 : 0));
  const observed = failed.reduce<number>((a, b) => a + b, 0);
  const ratio = observedOverExpected(observed, count.mean);
  const factors = fleet.truth.familyFactors;
  const logs = Object.values(factors).map(Math.log);
  const middle = Math.exp(logs.reduce((a, b) => a + b, 0) / logs.length);
  return {
    failures: fit.failures,
    observed,
    expected: count.mean,
    inCountRange: observed >= count.low && observed <= count.high,
    levelHolds: ratio.low <= 1 && ratio.high >= 1,
    auc: areaUnderCurve(
      units.map((unit) => unit.probability),
      failed,
    )!.auc,
    scalesInRange: fit.familyScales.map(({ family, lifeFactor }) => {
      const truth = factors[family] / middle;
      return truth >= lifeFactor.low && truth <= lifeFactor.high;
    }),
  };
}

const share = (list: readonly boolean[]) => list.filter(Boolean).length / list.length;
const mean = (list: readonly number[]) => list.reduce((a, b) => a + b, 0) / list.length;

describe('odometers and renewals only: 160 units, 8 families, ten years', () => {
  const outcomes = seeds.map((seed) => nextYear(odometerFleet(seed), [], seed));

  test('next year’s level holds on most seeds and over all of them', () => {
    expect(mean(outcomes.map(({ failures }) => failures))).toBeGreaterThan(40);
    expect(share(outcomes.map(({ levelHolds }) => levelHolds))).toBeGreaterThanOrEqual(0.8);
    const ratio = mean(outcomes.map((o) => o.observed)) / mean(outcomes.map((o) => o.expected));
    expect(ratio).toBeGreaterThan(soak ? 0.92 : 0.85);
    expect(ratio).toBeLessThan(soak ? 1.08 : 1.15);
  });

  test('units are told apart far better than by a base rate', () => {
    for (const { auc } of outcomes) expect(auc).toBeGreaterThan(0.7);
    expect(mean(outcomes.map(({ auc }) => auc))).toBeGreaterThan(0.82);
  });

  test('80 % ranges of the count cover 70 to 90 %; ten fleets alone may all be covered', () => {
    const covered = share(outcomes.map(({ inCountRange }) => inCountRange));
    expect(covered).toBeGreaterThanOrEqual(0.7);
    expect(covered).toBeLessThanOrEqual(soak ? 0.9 : 1);
  });
});

describe('hours, idling and drains drive wear by physics that is not the model’s: 300 units, 6 families', () => {
  const outcomes = seeds.map((seed) => nextYear(dutyFleet(seed), dutyCovariates, seed));

  test('80 % ranges of next year’s count cover 70 to 90 %', () => {
    const covered = share(outcomes.map(({ inCountRange }) => inCountRange));
    expect(covered).toBeGreaterThanOrEqual(0.7);
    expect(covered).toBeLessThanOrEqual(0.9);
  });

  test('80 % ranges of the family scales cover 70 to 90 %', () => {
    const covered = share(outcomes.flatMap(({ scalesInRange }) => scalesInRange));
    expect(covered).toBeGreaterThanOrEqual(0.7);
    expect(covered).toBeLessThanOrEqual(0.9);
  });

  test('level and order of units hold', () => {
    const ratio = mean(outcomes.map((o) => o.observed)) / mean(outcomes.map((o) => o.expected));
    expect(ratio).toBeGreaterThan(0.88);
    expect(ratio).toBeLessThan(1.12);
    expect(mean(outcomes.map(({ auc }) => auc))).toBeGreaterThan(0.73);
  });
});
