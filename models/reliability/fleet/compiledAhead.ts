import { clockPathFor } from './clockPath.ts';
import type { ClockPath } from './clockPath.ts';
import { compileFleet } from './compiledFleet.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import type { Episode } from './episode.ts';
import type { FittedStructure, FleetFit } from './fleetFit.ts';
import type { ForecastRequest } from './forecast.ts';
import { cumulativeHazards } from './hazardAhead.ts';
import type { LocalParameters } from './localParameters.ts';

/** Requests on one clock: past and use ahead in one row of stretches, with the place where today lies. */
export interface CompiledAhead {
  readonly fleet: CompiledFleet;
  readonly path: ClockPath;
  readonly stops: Float64Array;
}

export function compileAhead(
  fit: FleetFit,
  structure: FittedStructure,
  requests: readonly ForecastRequest[],
): CompiledAhead {
  const joined = requests.map(({ episode, future }): Episode => ({
    ...episode,
    segments: [...episode.segments, ...future],
    // a set that is asked about runs; how it was found to be sound is behind it
    end: 'running',
    failureChance: undefined,
    intervalFound: undefined,
  }));
  const today = requests.map(({ episode }) => [episode.segments.length - 1]);
  const index = new Map(fit.families.map((family, k) => [family, k]));
  const familyIndex = (family: string) => index.get(family) ?? -1;
  const fleet = compileFleet(joined, structure.clock, fit.covariates, familyIndex, today);
  return { fleet, path: clockPathFor(fleet), stops: new Float64Array(fleet.longestRunCount + 1) };
}

/** Cumulative hazard from today to the end of the use ahead, which is scaled by `useFactor`. */
export function hazardFromToday(
  { fleet, path, stops }: CompiledAhead,
  unit: number,
  at: LocalParameters,
  useFactor: number,
): number {
  const nowStop = fleet.breakStops[unit][0];
  cumulativeHazards(fleet, unit, at, path, stops, { nowStop, useFactor });
  const runs = fleet.runFrom[unit + 1] - fleet.runFrom[unit];
  return Math.max(0, stops[runs] - stops[nowStop]);
}
