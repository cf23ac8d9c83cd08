import { drainCost, type DrainCosts } from './drainInterval.ts';

/** Whether a sampling programme pays, per 1 000 km. */
export interface SamplingWorth {
  /** what knowing the wear exactly would save, cents per 1 000 km */
  readonly perfectCentsPer1000Km: number;
  /** what samples bring of it */
  readonly worthCentsPer1000Km: number;
  /** what the samples cost */
  readonly costCentsPer1000Km: number;
  readonly pays: boolean;
}

/**
 * Worth of oil samples for setting an interval: with perfect knowledge each draw would be run at its own best interval;
 * what that saves against the one interval that is best on average, times the share that samples bring, against their cost.
 * @param costs of the oil in use, by draw
 * @param intervalKm the one interval, km, above 0
 * @param intervalsKm intervals that knowledge could choose from, km
 * @param sampleCents cost of one sample, 0 or more
 * @param eachChanges changes to one sample, above 0
 * @param knowledgeShare share of perfect knowledge that samples bring, 0..1
 * @returns cents per 1 000 km; perfect knowledge is never worth less than 0
 * @throws RangeError for a share outside 0..1 or eachChanges not above 0
 * Source: expected value of perfect information (Raiffa & Schlaifer 1961); the share is an assumption.
 */
export function samplingWorth(
  costs: DrainCosts,
  intervalKm: number,
  intervalsKm: readonly number[],
  sampleCents: number,
  eachChanges: number,
  knowledgeShare: number,
): SamplingWorth {
  if (!(knowledgeShare >= 0 && knowledgeShare <= 1))
    throw new RangeError(`knowledgeShare must lie in 0..1, got ${knowledgeShare}`);
  if (!(eachChanges > 0)) throw new RangeError(`eachChanges must be above 0, got ${eachChanges}`);
  let saved = 0;
  for (let draw = 0; draw < costs.draws; draw++) {
    const own: DrainCosts = { ...costs, draws: 1, lifeSharePerKm: (km) => costs.lifeSharePerKm(km, draw) };
    const common = drainCost(own, intervalKm).centsPer1000Km;
    let least = common;
    for (const km of intervalsKm) least = Math.min(least, drainCost(own, km).centsPer1000Km);
    saved += (common - least) / costs.draws;
  }
  const worth = knowledgeShare * saved;
  const cost = (1000 * sampleCents) / (eachChanges * intervalKm);
  return {
    perfectCentsPer1000Km: saved,
    worthCentsPer1000Km: worth,
    costCentsPer1000Km: cost,
    pays: worth > cost,
  };
}
