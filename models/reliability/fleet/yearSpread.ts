import { gammaln } from 'simple-statistics';
import { leastHazard } from './baseRatePull.ts';
import type { LogPrior } from './fleetPriors.ts';

const gridStep = 0.25;
const stepsEachWay = 12;

/**
 * How far whole years lie from what was expected of them beyond chance: coefficient of variation of a gamma factor shared by all units in a year. Each
 * year's failures are then negative binomial, ln Γ(O + a) − ln Γ(a) + a ln(a / (a + E)) + O ln(E / (a + E)) with a = 1 / cv²; the posterior's root mean
 * square over a log-normal prior. What no year shows (a law that is not the fleet's, use that changes) is in the prior.
 * @param observed @param expected failures per year, with the level already matched
 */
export function yearSpread(
  observed: ArrayLike<number>,
  expected: ArrayLike<number>,
  prior: LogPrior,
): number {
  const nodes = Array.from({ length: 2 * stepsEachWay + 1 }, (_, k) => {
    const deviate = (k - stepsEachWay) * gridStep;
    const square = Math.exp(2 * (prior.mean + deviate * prior.sd));
    return { square, logWeight: logLikelihood(observed, expected, 1 / square) - deviate ** 2 / 2 };
  });
  const most = Math.max(...nodes.map((node) => node.logWeight));
  let sum = 0;
  let weighted = 0;
  for (const { square, logWeight } of nodes) {
    const weight = Math.exp(logWeight - most);
    sum += weight;
    weighted += weight * square;
  }
  return Math.sqrt(weighted / sum);
}

function logLikelihood(observed: ArrayLike<number>, expected: ArrayLike<number>, a: number): number {
  let value = 0;
  for (let y = 0; y < observed.length; y++) {
    const E = expected[y];
    if (!(E > leastHazard)) continue;
    value +=
      gammaln(observed[y] + a) - gammaln(a) - a * Math.log1p(E / a) - observed[y] * Math.log((a + E) / E);
  }
  return value;
}
