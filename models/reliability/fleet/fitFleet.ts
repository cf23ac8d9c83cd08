import type { Random } from '../../numeric/random.ts';
import { clocksFor, hoursRuleFrom } from './clocks.ts';
import { compileFleet } from './compiledFleet.ts';
import type { CovariateSpec } from './covariateSpec.ts';
import { checkEpisode, failureWeight, observedDays } from './episode.ts';
import type { Episode, Segment } from './episode.ts';
import type { FittedStructure, FleetFit } from './fleetFit.ts';
import type { FleetPriors } from './fleetPriors.ts';
import { learnedFrom } from './learned.ts';
import { levelAndPractice } from './levelMatch.ts';
import { drawByLaplace, drawByResampling, widenDraws } from './structureDraws.ts';
import { fitStructure } from './structureFit.ts';
import type { StructureFit } from './structureFit.ts';
import { layoutFor } from './structurePosterior.ts';
import { leaveOneOutScores, structureWeights } from './structureWeights.ts';
import { fitMessages } from './fitMessages.ts';
import { versionOf } from './versionOf.ts';

export interface FleetFitInput {
  readonly episodes: readonly Episode[];
  readonly covariates: readonly CovariateSpec[];
  readonly priors: FleetPriors;
  readonly random: Random;
  /** text that stands for the inputs and coefficients in use, for the version */
  readonly versionText: string;
  /** number of parameter draws kept; default 240 */
  readonly drawCount?: number;
}

/** Below this many failures the posterior is resampled, from it on its Gaussian approximation holds. */
export const laplaceFromFailures = 20;

/**
 * Failure model of a fleet's timing sets: a Weibull on a damage clock per structure (wear with covariates, engine hours, distance), family scales
 * drawn together, priors on everything, averaged by leave-one-out score with mild shrinkage, the level matched to what was seen
 * (see the notes in each part).
 * @returns the fit; without any failure it is the priors, corrected by the time survived, and its messages say so
 * @throws RangeError naming the unit and field of an impossible episode
 */
export function fitFleet(input: FleetFitInput): FleetFit {
  const { covariates, priors, random, drawCount = 240 } = input;
  input.episodes.forEach((episode) => checkEpisode(episode, covariates.length));
  // in an order of its own: random numbers and rounding must not depend on the order of the records
  const episodes = input.episodes.filter(hasUse).sort(byUnitAndAge);
  const families = [...new Set(episodes.map((episode) => episode.family))].sort();
  const index = new Map(families.map((family, k) => [family, k]));
  const familyIndex = (family: string) => index.get(family) ?? -1;
  const failures = episodes.reduce((sum, episode) => sum + failureWeight(episode), 0);
  const exposureDays = episodes.reduce((sum, episode) => sum + observedDays(episode), 0);
  const hours = hoursRuleFrom(allSegments(episodes), priors);
  const clocks = clocksFor(priors, hours, covariates.filter((spec) => spec.kind === 'clock').length);
  const compiled = clocks.map((clock) => compileFleet(episodes, clock, covariates, familyIndex));
  const fits = clocks.map((clock, k) =>
    fitStructure(
      clock,
      compiled[k],
      layoutFor(clock, covariates, families.length, priors),
      priors.familySpread,
    ),
  );
  const scores = fits.map((fit, k) => leaveOneOutScores(fit, compiled[k]));
  const weights = structureWeights(scores, random);
  const resample = failures < laplaceFromFailures;
  const drawn = fits.map((fit, k) => {
    const count = Math.max(1, Math.round(drawCount * weights[k]));
    const plain = resample
      ? drawByResampling(fit, compiled[k], count, random)
      : drawByLaplace(fit, count, random);
    return widenDraws(plain, priors.rangeWidening);
  });
  const structures = fits.map((fit, k): FittedStructure => ({
    clock: fit.clock,
    layout: fit.layout,
    weight: weights[k],
    best: fit.best,
    draws: drawn[k].draws,
    score: scores[k].reduce((a, b) => a + b, 0) / Math.max(1, episodes.length),
    usePerDay: usePerDay(episodes, fit),
  }));
  // a clock with little weight has few draws, and its diagnostic says little
  const judged = drawn.filter((_, k) => weights[k] > 0.2);
  const paretoK = resample ? Math.max(...judged.map((one) => one.paretoK ?? 0)) : null;
  const level = levelAndPractice(structures, episodes, covariates, familyIndex, {
    failures,
    exposureDays,
    priors,
    random,
  });
  const learned = learnedFrom(structures, families, episodes, covariates, priors);
  const messages = fitMessages(
    {
      episodes: episodes.length,
      failures,
      leftOut: input.episodes.filter((episode) => failureWeight(episode) > 0 && !hasUse(episode)).length,
      hours,
      paretoK,
      converged: fits.every(({ nodes }) => nodes.every((node) => node.converged)),
      covariates,
    },
    learned,
  );
  return {
    version: versionOf(versionText(input, structures, level.level)),
    covariates,
    priors,
    families,
    hours,
    structures,
    episodes: episodes.length,
    failures,
    exposureDays,
    ...level,
    ...learned,
    method: resample ? 'resampled' : 'laplace',
    paretoK,
    messages,
  };
}

/** Coefficients as text, and the fit itself to nine digits: any record that changed it changes the version. */
function versionText(input: FleetFitInput, structures: readonly FittedStructure[], level: number): string {
  const digits = (values: Iterable<number>) => Array.from(values, (value) => value.toPrecision(9)).join(' ');
  const fitted = structures.map(
    ({ clock, weight, best }) => `${clock.name} ${digits([weight, ...best.mode])}`,
  );
  return [input.versionText, JSON.stringify(input.covariates), ...fitted, digits([level])].join('\n');
}

function byUnitAndAge(a: Episode, b: Episode): number {
  const names = a.unitNumber === b.unitNumber ? 0 : a.unitNumber < b.unitNumber ? -1 : 1;
  const ages = (b.endedDaysAgo ?? 0) - (a.endedDaysAgo ?? 0);
  return names || ages || observedDays(a) - observedDays(b) || totalKm(a) - totalKm(b);
}

function totalKm({ segments }: Episode): number {
  return segments.reduce((sum, segment) => sum + segment.distanceKm, 0);
}

function hasUse({ segments }: Episode): boolean {
  return segments.some(({ distanceKm, engineHours }) => distanceKm >= 0.1 || (engineHours ?? 0) >= 0.01);
}

function* allSegments(episodes: readonly Episode[]): Generator<Segment> {
  for (const episode of episodes) yield* episode.segments;
}

/** Mean daily use of the sets still running over their last stretches (about a year), in prior lifetimes. */
function usePerDay(episodes: readonly Episode[], { clock }: StructureFit): { full: number; idle: number } {
  const unit = Math.exp(clock.life.mean);
  let full = 0;
  let idle = 0;
  let days = 0;
  for (const { segments, end } of episodes) {
    if (end !== 'running') continue;
    let back = 0;
    for (let k = segments.length - 1; k >= 0 && back < 365; k--) {
      const use = clock.use(segments[k]);
      full += use.full / unit;
      idle += use.idle / unit;
      back += segments[k].days;
    }
    days += back;
  }
  return days > 0 ? { full: full / days, idle: idle / days } : { full: 0, idle: 0 };
}
