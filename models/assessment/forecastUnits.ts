import type { UnitTimeline } from '../oil/charge.ts';
import type { Random } from '../numeric/random.ts';
import type { Episode } from '../reliability/fleet/episode.ts';
import type { FleetFit } from '../reliability/fleet/fleetFit.ts';
import type { ForecastRequest } from '../reliability/fleet/forecast.ts';
import { forecastFleet } from '../reliability/fleet/forecastFleet.ts';
import { dailyUseOf, futureUse, type DailyUse } from '../reliability/fleet/futureUse.ts';
import { dayFromIso } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import { failureCovariates } from './failureCovariates.ts';
import type { UnitChance } from './failureEstimate.ts';
import { round } from './round.ts';

interface ActiveUnit {
  readonly history: UnitHistory;
  readonly timeline: UnitTimeline;
  readonly episodes: readonly Episode[];
}

export interface FleetChances {
  readonly units: readonly UnitChance[];
  /** the set in each unit and the use ahead that was asked about */
  readonly requests: readonly ForecastRequest[];
  /** chance of each unit without planned renewals */
  readonly ifNotRenewed: readonly number[];
  readonly expected: { readonly mid: number; readonly low: number; readonly high: number };
}

const words: ReadonlyMap<string, string> = new Map(
  failureCovariates.map(({ name, words: text }) => [name, text]),
);

/**
 * Chances of failure of the units in service over the horizon, each with range, share of own data and causes. A unit that
 * is to leave within the horizon is asked up to that day only.
 */
export function forecastUnits(
  fit: FleetFit,
  units: readonly ActiveUnit[],
  horizonDays: number,
  random: Random,
): FleetChances {
  const byFamily = new Map<string, Episode[]>();
  for (const { episodes } of units)
    for (const episode of episodes)
      if (episode.end === 'running') {
        const list = byFamily.get(episode.family);
        if (list === undefined) byFamily.set(episode.family, [episode]);
        else list.push(episode);
      }
  const uses = new Map<string, DailyUse>(
    [...byFamily].map(([family, episodes]) => [family, dailyUseOf(episodes)]),
  );
  const requests = units.map(({ episodes, history, timeline }): ForecastRequest => {
    const episode = episodes[episodes.length - 1];
    const leaves = history.unit.plannedDisposalOn;
    const days =
      leaves === null
        ? horizonDays
        : Math.max(0, Math.min(horizonDays, dayFromIso(leaves) - timeline.asOfDay));
    // a disposal day that has passed without a disposal says nothing of the days to come
    const ahead = days === 0 ? horizonDays : days;
    const use = uses.get(episode.family) ?? { distanceKm: 0, engineHours: null, idleHours: null };
    return { episode, ...futureUse(episode, use, ahead, fit.covariates) };
  });
  const forecast = forecastFleet(fit, requests, random);
  const basis = basisOf(fit);
  return {
    units: forecast.units.map((unit): UnitChance => ({
      probability: unit.probability,
      low: unit.low,
      high: unit.high,
      ownDataShare: unit.ownDataShare,
      basis,
      contributions: unit.contributions.map(({ cause, logHazard }) => ({
        cause: words.get(cause) ?? cause,
        logHazard,
      })),
    })),
    requests,
    ifNotRenewed: forecast.units.map((unit) => unit.ifNotRenewed.value),
    expected: { mid: forecast.count.mean, low: forecast.count.low, high: forecast.count.high },
  };
}

/** In words: what the chances rest on. */
function basisOf(fit: FleetFit): string {
  const failures = round(fit.failures, 2);
  if (fit.failures < 0.5)
    return 'From prior experience: this fleet has no timing failure on record yet, only the time its units survived';
  return `From prior experience and this fleet's own ${failures} timing ${failures === 1 ? 'failure' : 'failures'}`;
}
