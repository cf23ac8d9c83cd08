import type { Random } from '../../numeric/random.ts';
import { pullToBaseRate } from './baseRatePull.ts';
import type { CovariateSpec } from './covariateSpec.ts';
import { failureWeight } from './episode.ts';
import type { Episode } from './episode.ts';
import type { FittedStructure } from './fleetFit.ts';
import type { FleetPriors } from './fleetPriors.ts';
import { learnedPull, levelledHazards } from './learnedPull.ts';
import { leftOutHazards } from './leftOutHazards.ts';
import { renewalPractice } from './renewalPractice.ts';
import type { RenewalPractice } from './renewalPractice.ts';
import { compileWindows, trainingWindows, windowDays, windowHazards } from './trainingWindows.ts';
import type { TrainingWindows } from './trainingWindows.ts';
import { yearSpread } from './yearSpread.ts';

export interface LevelFacts {
  readonly failures: number;
  readonly exposureDays: number;
  readonly priors: FleetPriors;
  readonly random: Random;
}

export interface Level {
  readonly baseRatePerDay: number;
  readonly pull: number;
  readonly yearSpread: number;
  readonly level: number;
  readonly practice: RenewalPractice;
}

/** Large fleets are judged on a random part of their sets, and on some of the draws. */
const mostEpisodes = 1500;
const mostDraws = 40;

/**
 * Base rate, pull to it, spread of years, level and renewal practice. Averaging a convex hazard over loosely known parameters raises its mean, and
 * pulling to the base rate moves it: the level is brought back to the failures seen over the training windows, trusting the model as if by some failures
 * of its own.
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
  const leftOut = new Float64Array(count);
  const drawn = structures.map(({ clock, layout, weight, best, draws }) => {
    const fleet = compileWindows(windows, clock, covariates, familyIndex);
    windowHazards(fleet, layout, best.mode).forEach((hazard, w) => (atMode[w] += weight * hazard));
    leftOutHazards(fleet, layout, best).forEach((hazard, w) => (leftOut[w] += weight * hazard));
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
  const trust = priors.levelTrustFailures;
  const judged = { hazards: leftOut, days: windows.days, failed: windows.failed, baseRatePerDay, trust };
  const pull = learnedPull(judged, priors.baseRatePull);
  // what a year long past says of the level fades: a law that is not quite the fleet's drifts off as the fleet ages
  const counted = (yearsAgo: number) => Math.exp(-yearsAgo / priors.levelYears);
  const all = drawn.flat();
  let expected = 0;
  for (const hazards of all)
    for (let w = 0; w < count; w++)
      expected +=
        (counted(windows.yearsAgo[w]) * pullToBaseRate(hazards[w], windows.days[w], baseRatePerDay, pull)) /
        all.length;
  const seen = episodes.reduce(
    (total, episode) =>
      total + failureWeight(episode) * counted(Math.floor((episode.endedDaysAgo ?? 0) / windowDays)),
    0,
  );
  const years = byYear(windows, levelledHazards(judged, pull));
  return {
    baseRatePerDay,
    pull,
    yearSpread: yearSpread(years.failed, years.expected, priors.yearSpread),
    level: share > 0 ? (seen + trust) / (expected / share + trust) : 1,
    practice: renewalPractice(atMode, windows.days, windows.planned),
  };
}

function byYear({ yearsAgo, failed }: TrainingWindows, hazards: Float64Array) {
  const count = yearsAgo.reduce((most, year) => Math.max(most, year + 1), 0);
  const years = { failed: new Float64Array(count), expected: new Float64Array(count) };
  yearsAgo.forEach((year, w) => {
    years.failed[year] += failed[w];
    years.expected[year] += hazards[w];
  });
  return years;
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
