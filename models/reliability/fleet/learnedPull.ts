import { leastHazard, pullToBaseRate } from './baseRatePull.ts';
import type { LogPrior } from './fleetPriors.ts';

/** Windows of the past with what the model says of each when its own set is left out. */
export interface JudgedWindows {
  readonly hazards: Float64Array;
  readonly days: Float64Array;
  readonly failed: Float64Array;
  readonly baseRatePerDay: number;
  /** failures' worth of trust in the level of the model */
  readonly trust: number;
}

const gridStep = 0.05;
const gridCount = 15;

/**
 * Share of the way that log hazards are best pulled to the base rate: the posterior mean over 0..0.7 of a Gaussian prior times the Poisson likelihood
 * Π h^d e^−h of the windows, their hazards from the other sets and brought to the level seen. Few failures leave it at the prior; many learn it. It is
 * one less the calibration slope (Cox, Biometrika 45, 1958), shrunk.
 */
export function learnedPull(windows: JudgedWindows, prior: LogPrior): number {
  const shares = Array.from({ length: gridCount }, (_, k) => k * gridStep);
  const logs = shares.map(
    (pull) => logLikelihoodAt(windows, pull) - ((pull - prior.mean) / prior.sd) ** 2 / 2,
  );
  const most = Math.max(...logs);
  let sum = 0;
  let weighted = 0;
  shares.forEach((pull, k) => {
    const weight = Math.exp(logs[k] - most);
    sum += weight;
    weighted += weight * pull;
  });
  return weighted / sum;
}

/** Hazards pulled to the base rate, and the factor that brings their sum to the failures seen. */
export function levelledHazards(
  { hazards, days, failed, baseRatePerDay, trust }: JudgedWindows,
  pull: number,
): Float64Array {
  const pulled = hazards.map((hazard, w) => pullToBaseRate(hazard, days[w], baseRatePerDay, pull));
  const seen = failed.reduce((a, b) => a + b, 0);
  const level = (seen + trust) / (pulled.reduce((a, b) => a + b, 0) + trust);
  return pulled.map((hazard) => level * hazard);
}

function logLikelihoodAt(windows: JudgedWindows, pull: number): number {
  return levelledHazards(windows, pull).reduce(
    (sum, hazard, w) =>
      sum +
      (windows.failed[w] > 0 ? windows.failed[w] * Math.log(Math.max(hazard, leastHazard)) : 0) -
      hazard,
    0,
  );
}
