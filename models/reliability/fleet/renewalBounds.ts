import type { FleetFitInput } from './fitFleet.ts';
import { fitFleet } from './fitFleet.ts';
import type { ForecastRequest } from './forecast.ts';
import { forecastFleet } from './forecastFleet.ts';
import { failureWeight } from './episode.ts';

/** Expected failures ahead under the two extreme readings of planned renewals. */
export interface RenewalBounds {
  /** the renewed sets had no more risk than others like them */
  readonly asCensored: number;
  /** every renewed set was about to fail */
  readonly asFailures: number;
}

/**
 * Planned renewals take out sets that looked bad, so leaving them as "still sound" may say too little and counting them as failures says too much:
 * both bounds of the number of failures ahead if nothing is renewed. Two fits.
 */
export function renewalBounds(input: FleetFitInput, requests: readonly ForecastRequest[]): RenewalBounds {
  const expected = (counted: boolean) => {
    const episodes = input.episodes.map((episode) =>
      episode.end === 'planned'
        ? { ...episode, failureChance: counted ? 1 : failureWeight(episode) }
        : episode,
    );
    return forecastFleet(fitFleet({ ...input, episodes }), requests, input.random).countIfNotRenewed.mean;
  };
  return { asCensored: expected(false), asFailures: expected(true) };
}
