import type { Clock } from './clocks.ts';
import { compileFleet } from './compiledFleet.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import type { CovariateSpec } from './covariateSpec.ts';
import { failureWeight, observedDays } from './episode.ts';
import type { Episode } from './episode.ts';
import { clockPathFor } from './clockPath.ts';
import { cumulativeHazards } from './hazardAhead.ts';
import type { LocalParameters } from './localParameters.ts';
import { localParameters } from './structurePosterior.ts';
import type { ParameterLayout } from './structurePosterior.ts';

/** The lives the model was fitted to, parted by years counted back from today. */
export interface TrainingWindows {
  readonly episodes: readonly Episode[];
  readonly breaks: readonly (readonly number[])[];
  /** per window, episodes in order */
  readonly days: Float64Array;
  /** chance that the window ended in a failure, and in a planned renewal */
  readonly failed: Float64Array;
  readonly planned: Float64Array;
  /** which year before today the window lies in, 0 the last */
  readonly yearsAgo: Int32Array;
}

export const windowDays = 365;

export function trainingWindows(episodes: readonly Episode[]): TrainingWindows {
  const days: number[] = [];
  const failed: number[] = [];
  const planned: number[] = [];
  const yearsAgo: number[] = [];
  const breaks = episodes.map((episode) => {
    const { segments, end, endedDaysAgo = 0 } = episode;
    const ends: number[] = [];
    let ago = endedDaysAgo + observedDays(episode);
    const years = segments.map((segment) => {
      ago -= segment.days;
      return Math.max(0, Math.floor((ago + segment.days / 2) / windowDays));
    });
    let sum = 0;
    segments.forEach((segment, k) => {
      sum += segment.days;
      const last = k === segments.length - 1;
      if (!last && years[k + 1] === years[k]) return;
      ends.push(k);
      days.push(sum);
      failed.push(last ? failureWeight(episode) : 0);
      planned.push(last && end === 'planned' ? 1 - failureWeight(episode) : 0);
      yearsAgo.push(years[k]);
      sum = 0;
    });
    return ends;
  });
  return {
    episodes,
    breaks,
    days: Float64Array.from(days),
    failed: Float64Array.from(failed),
    planned: Float64Array.from(planned),
    yearsAgo: Int32Array.from(yearsAgo),
  };
}

/** The windows' episodes on one clock, broken at the windows' ends. */
export function compileWindows(
  windows: TrainingWindows,
  clock: Clock,
  covariates: readonly CovariateSpec[],
  familyIndex: (family: string) => number,
): CompiledFleet {
  return compileFleet(windows.episodes, clock, covariates, familyIndex, windows.breaks);
}

/** Cumulative hazard in each window at one vector of parameters. */
export function windowHazards(fleet: CompiledFleet, layout: ParameterLayout, at: Float64Array): Float64Array {
  const local = Array.from({ length: layout.families }, (_, family) => localParameters(layout, at, family));
  return windowHazardsAt(fleet, (episode) => local[fleet.family[episode]]);
}

/** Cumulative hazard in each window, each episode at parameters of its own. */
export function windowHazardsAt(
  fleet: CompiledFleet,
  parametersOf: (episode: number) => LocalParameters,
): Float64Array {
  const count = fleet.breakStops.reduce((sum, stops) => sum + stops.length, 0);
  const hazards = new Float64Array(count);
  const path = clockPathFor(fleet);
  const stops = new Float64Array(fleet.longestRunCount + 1);
  let window = 0;
  for (let e = 0; e < fleet.episodeCount; e++) {
    cumulativeHazards(fleet, e, parametersOf(e), path, stops);
    let before = 0;
    for (const stop of fleet.breakStops[e]) {
      hazards[window++] = Math.max(0, stops[stop] - before);
      before = stops[stop];
    }
  }
  return hazards;
}
