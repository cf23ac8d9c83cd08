import type { Random } from '../numeric/seededRandom.ts';
import { pullToBaseRate } from './baseRatePull.ts';
import type { CovariateSpec } from './covariateSpec.ts';
import type { Episode } from './episode.ts';
import type { FittedStructure } from './fleetFit.ts';
import type { FleetPriors } from './fleetPriors.ts';
import { renewalPractice } from './renewalPractice.ts';
import type { RenewalPractice } from './renewalPractice.ts';
import { compileWindows, trainingWindows, windowHazards } from './trainingWindows.ts';

export interface LevelFacts {
  readonly failures: number;
  readonly exposureDays: number;
  readonly priors: FleetPriors;
  readonly random: Random;
}

export interface Level {
  readonly baseRatePerDay: number;
  readonly level: number;
  readonly practice: RenewalPractice;
}

/** Large fleets are judged on a random part of their sets, and on some of the draws. */
const mostEpisodes = 1500;
const mostDraws = 40;

/**
 * Base rate, level and renewal practice. Averaging a convex hazard over loosely known parameters raises its mean, and pulling to the base rate moves
 * it: the level is brought back to the failures seen over the training windows, trusting the model as if by some failures of its own.
 */
export function levelAndPractice(
  structures: readonly FittedStructure[],
  episodes: readonly Episode[],
  covariates: readonly CovariateSpec[],
  familyIndex: (family: string) => number,
  { failures, exposureDays, priors, random }: LevelFacts,
): Level {
  const chosen = someOf(episodes, mostEpisodes, random);
  const windows = trainingWindows(chosen);
  const count = windows.days.length;
  const atMode = new Float64Array(count);
  const drawn = structures.map(({ clock, layout, weight, best, draws }) => {
    const fleet = compileWindows(windows, clock, covariates, familyIndex);
    windowHazards(fleet, layout, best.mode).forEach((hazard, w) => (atMode[w] += weight * hazard));
    const take = Math.max(1, Math.round(mostDraws * weight));
    const step = draws.length / take;
    return Array.from({ length: take }, (_, k) =>
      windowHazards(fleet, layout, draws[Math.min(draws.length - 1, Math.floor(k * step))].at),
    );
  });
  // what the chosen sets stand for in the whole fleet
  const share = exposureDays > 0 ? sum(windows.days) / exposureDays : 1;
  const modelled = share > 0 ? sum(atMode) / share : 0;
  const baseRatePerDay =
    exposureDays > 0 && modelled > 0 ? (failures + 1) / (exposureDays * (1 + 1 / modelled)) : 0;
  let expected = 0;
  const all = drawn.flat();
  for (const hazards of all)
    for (let w = 0; w < count; w++)
      expected +=
        pullToBaseRate(hazards[w], windows.days[w], baseRatePerDay, priors.baseRatePull) / all.length;
  const trust = priors.levelTrustFailures;
  return {
    baseRatePerDay,
    level: (failures + trust) / ((share > 0 ? expected / share : 0) + trust),
    practice: renewalPractice(atMode, windows.days, windows.planned),
  };
}

function sum(values: Float64Array): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}

function someOf<T>(list: readonly T[], most: number, random: Random): readonly T[] {
  if (list.length <= most) return list;
  const keyed = list.map((item) => ({ item, key: random() }));
  return keyed
    .sort((a, b) => a.key - b.key)
    .slice(0, most)
    .map(({ item }) => item);
}
