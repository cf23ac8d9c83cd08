import { clockPathFor } from './clockPath.ts';
import type { Clock } from './clocks.ts';
import { compileFleet } from './compiledFleet.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import type { CovariateSpec } from './covariateSpec.ts';
import { failureWeight } from './episode.ts';
import type { Episode } from './episode.ts';
import { cumulativeHazards } from './hazardAhead.ts';
import { localParameters } from './structurePosterior.ts';
import type { ParameterLayout } from './structurePosterior.ts';

/** Stretches of about a year of the lives the model was fitted to. */
export interface TrainingWindows {
  readonly episodes: readonly Episode[];
  readonly breaks: readonly (readonly number[])[];
  /** per window, episodes in order */
  readonly days: Float64Array;
  /** chance that the window ended in a failure, and in a planned renewal */
  readonly failed: Float64Array;
  readonly planned: Float64Array;
}

const windowDays = 365;

export function trainingWindows(episodes: readonly Episode[]): TrainingWindows {
  const days: number[] = [];
  const failed: number[] = [];
  const planned: number[] = [];
  const breaks = episodes.map((episode) => {
    const ends: number[] = [];
    let sum = 0;
    episode.segments.forEach((segment, k) => {
      sum += segment.days;
      const last = k === episode.segments.length - 1;
      if (sum < windowDays && !last) return;
      ends.push(k);
      days.push(sum);
      failed.push(last ? failureWeight(episode) : 0);
      planned.push(last && episode.end === 'planned' ? 1 - failureWeight(episode) : 0);
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
  const count = fleet.breakStops.reduce((sum, stops) => sum + stops.length, 0);
  const hazards = new Float64Array(count);
  const path = clockPathFor(fleet);
  const stops = new Float64Array(fleet.longestRunCount + 1);
  const local = Array.from({ length: layout.families }, (_, family) => localParameters(layout, at, family));
  let window = 0;
  for (let e = 0; e < fleet.episodeCount; e++) {
    cumulativeHazards(fleet, e, local[fleet.family[e]], path, stops);
    let before = 0;
    for (const stop of fleet.breakStops[e]) {
      hazards[window++] = Math.max(0, stops[stop] - before);
      before = stops[stop];
    }
  }
  return hazards;
}
