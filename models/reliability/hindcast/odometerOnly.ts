import { fitLifetime } from '../fit/fitLifetime.ts';
import { FitRefused } from '../fit/fitRefused.ts';
import type { LifetimeRows } from '../fit/lifetimeRows.ts';
import { failureWeight } from '../fleet/episode.ts';
import type { Episode } from '../fleet/episode.ts';
import { cholesky, inverseOfFactor } from '../../numeric/cholesky.ts';
import { laplaceDraws } from '../posterior/laplaceDraws.ts';
import { baseRate } from './baseRate.ts';
import { countRange } from './countRange.ts';
import type { Forecaster, HindcastUnit } from './hindcastTypes.ts';

/** Spread of a prior on log shape about 2 that only keeps a handful of failures from running off. */
const looseShape = { mean: Math.log(2), sd: 1 };
const drawCount = 60;

/**
 * Rival: one Weibull for all sets, by distance since renewal alone (delayed entry for units bought used, planned renewals as still sound). With
 * nothing to fit it is the base rate.
 */
export const odometerOnly: Forecaster = (origin, random) => {
  const rows = rowsOf(origin.episodes);
  try {
    const prior = { mean: [0, looseShape.mean], sd: [Infinity, looseShape.sd] };
    const fit = fitLifetime('weibull', rows, { prior });
    const chancesAt = (logScale: number, shape: number) =>
      origin.atRisk.map((unit) => {
        const { now, then } = distances(unit);
        const hazard = (km: number) => Math.exp(Math.min(shape * (Math.log(km) - logScale), 50));
        return then > now ? -Math.expm1((now > 0 ? hazard(now) : 0) - hazard(then)) : 0;
      });
    const precision = cholesky(inverseOfFactor(cholesky(fit.covariance, 2)!, 2), 2)!;
    const mode = Float64Array.of(fit.coefficients[0], Math.log(fit.shape));
    return {
      chances: chancesAt(fit.coefficients[0], fit.shape),
      ...countRange(
        laplaceDraws(mode, precision, drawCount, random).map(([logScale, logShape]) =>
          chancesAt(logScale, Math.exp(logShape)),
        ),
      ),
    };
  } catch (error) {
    if (error instanceof FitRefused) return baseRate(origin, random);
    throw error;
  }
};

function rowsOf(episodes: readonly Episode[]): LifetimeRows {
  const low: number[] = [];
  const high: number[] = [];
  const entry: number[] = [];
  for (const episode of episodes) {
    const from = episode.entry === 'new' ? 0 : episode.entry.distanceKm;
    const to = from + distanceOf(episode);
    if (!(to > from)) continue;
    entry.push(from);
    low.push(to);
    high.push(failureWeight(episode) >= 0.5 ? to : Infinity);
  }
  return { low: Float64Array.from(low), high: Float64Array.from(high), entry: Float64Array.from(entry) };
}

function distances({ episode, future }: HindcastUnit): { now: number; then: number } {
  const now = (episode.entry === 'new' ? 0 : episode.entry.distanceKm) + distanceOf(episode);
  return { now, then: now + future.reduce((sum, segment) => sum + segment.distanceKm, 0) };
}

function distanceOf({ segments }: Episode): number {
  return segments.reduce((sum, segment) => sum + segment.distanceKm, 0);
}
