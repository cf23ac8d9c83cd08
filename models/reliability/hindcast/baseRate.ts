import { failureWeight, observedDays } from '../fleet/episode.ts';
import { gammaQuantile } from '../../numeric/gammaQuantile.ts';
import { countRange, equalParts } from './countRange.ts';
import { plannedDays } from './hindcastTypes.ts';
import type { Forecaster } from './hindcastTypes.ts';

/**
 * Rival: every unit has the fleet's failures per day so far, (failures + ½) / days (the half is Jeffreys' prior for a Poisson rate), over the days
 * planned for it.
 */
export const baseRate: Forecaster = ({ episodes, atRisk }) => {
  const failures = episodes.reduce((sum, episode) => sum + failureWeight(episode), 0);
  const days = Math.max(
    1,
    episodes.reduce((sum, episode) => sum + observedDays(episode), 0),
  );
  const chancesAt = (rate: number) => atRisk.map((unit) => -Math.expm1(-rate * plannedDays(unit)));
  return {
    chances: chancesAt((failures + 0.5) / days),
    ...countRange(equalParts.map((part) => chancesAt(gammaQuantile(failures + 0.5, part) / days))),
  };
};
