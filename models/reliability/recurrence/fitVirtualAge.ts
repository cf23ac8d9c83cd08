import { gammaln } from 'simple-statistics';
import { fitLifetime } from '../fit/fitLifetime.ts';
import type { LifetimeFit } from '../fit/fitLifetime.ts';
import type { GaussianPrior } from '../fit/workingSpace.ts';
import type { RepairHistory } from '../nonparametric/meanCumulativeFunction.ts';
import { virtualAgeAfter } from './virtualAge.ts';
import type { VirtualAgeKind } from './virtualAge.ts';

export interface VirtualAgeOptions {
  /** what the kind of job is known to restore; then nothing is learned about it */
  readonly fixedRestoration?: number;
  /** Beta(a, b) prior on the restoration, both 1 or above; few repeats say little about it */
  readonly restorationPrior?: readonly [number, number];
  /** prior on log scale and log shape */
  readonly prior?: GaussianPrior;
}

export interface VirtualAgeFit {
  readonly shape: number;
  readonly scale: number;
  /** 0 as good as new … 1 as bad as old */
  readonly restoration: number;
  /** 80 % range of the restoration from the profile (drop of 0.8212 in log posterior), inside 0..1 */
  readonly restorationLow: number;
  readonly restorationHigh: number;
  readonly logLikelihood: number;
}

/** Half the 80 % point of chi-square with one degree of freedom. */
const profileDrop = 0.8211872;

/**
 * Weibull life with imperfect repair, Kijima I or II: log likelihood Σ ln h(v + x) − [H(v + x) − H(v)]. For a given restoration
 * it is that of Weibull lifetimes with delayed entry at v; the restoration is found on the profile.
 * @param units repairs in ascending order, age 0 at the start
 * @returns shape, scale (unit of the histories) and restoration with its range
 * @throws RangeError for impossible histories; FitRefused as for lifetimes
 */
export function fitVirtualAge(
  kind: VirtualAgeKind,
  units: readonly RepairHistory[],
  options: VirtualAgeOptions = {},
): VirtualAgeFit {
  const { fixedRestoration, restorationPrior, prior } = options;
  const fitAt = (restoration: number) => fitLifetime('weibull', rowsAt(kind, units, restoration), { prior });
  const profile = (restoration: number): number => {
    const fit = fitAt(restoration);
    return fit.logLikelihood + logBeta(restoration, restorationPrior) + logPrior(fit, prior);
  };
  if (fixedRestoration !== undefined) {
    if (!(fixedRestoration >= 0 && fixedRestoration <= 1))
      throw new RangeError(`fixedRestoration must lie from 0 to 1, got ${fixedRestoration}`);
    return answer(fitAt(fixedRestoration), fixedRestoration, fixedRestoration, fixedRestoration);
  }
  const best = highest(profile);
  const floor = profile(best) - profileDrop;
  return answer(fitAt(best), best, edge(profile, floor, best, 0), edge(profile, floor, best, 1));
}

function answer(fit: LifetimeFit, restoration: number, low: number, high: number): VirtualAgeFit {
  return {
    shape: fit.shape,
    scale: Math.exp(fit.coefficients[0]),
    restoration,
    restorationLow: low,
    restorationHigh: high,
    logLikelihood: fit.logLikelihood,
  };
}

function rowsAt(kind: VirtualAgeKind, units: readonly RepairHistory[], restoration: number) {
  const low: number[] = [];
  const high: number[] = [];
  const entry: number[] = [];
  units.forEach(({ repairs, end }, unit) => {
    let virtualAge = 0;
    let before = 0;
    for (const time of repairs) {
      if (!(time > before && time <= end))
        throw new RangeError(`unit ${unit}: repair must lie after ${before} and up to ${end}, got ${time}`);
      const age = virtualAge + time - before;
      entry.push(virtualAge);
      low.push(age);
      high.push(age);
      virtualAge = virtualAgeAfter(kind, restoration, virtualAge, time - before);
      before = time;
    }
    if (end > before) {
      entry.push(virtualAge);
      low.push(virtualAge + end - before);
      high.push(Infinity);
    }
  });
  return { low: Float64Array.from(low), high: Float64Array.from(high), entry: Float64Array.from(entry) };
}

function logBeta(q: number, prior: readonly [number, number] | undefined): number {
  if (!prior) return 0;
  const [a, b] = prior;
  if (!(a >= 1 && b >= 1)) throw new RangeError(`restorationPrior must be 1 or above, got ${a}, ${b}`);
  const power = (base: number, exponent: number) => (exponent === 0 ? 0 : exponent * Math.log(base));
  return gammaln(a + b) - gammaln(a) - gammaln(b) + power(q, a - 1) + power(1 - q, b - 1);
}

function logPrior(fit: LifetimeFit, prior: GaussianPrior | undefined): number {
  if (!prior) return 0;
  const at = [fit.coefficients[0], Math.log(fit.shape)];
  return -0.5 * at.reduce((sum, value, i) => sum + ((value - prior.mean[i]) / prior.sd[i]) ** 2, 0);
}

/** Highest point on [0, 1]: a coarse look, since the profile may have two humps, then golden section. */
function highest(profile: (q: number) => number): number {
  let best = 0;
  for (let k = 1; k <= 20; k++) if (profile(k / 20) > profile(best)) best = k / 20;
  let low = Math.max(0, best - 0.05);
  let high = Math.min(1, best + 0.05);
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let step = 0; step < 60 && high - low > 1e-9; step++) {
    const left = high - golden * (high - low);
    const right = low + golden * (high - low);
    if (profile(left) < profile(right)) low = left;
    else high = right;
  }
  const inner = 0.5 * (low + high);
  return [0, 1, best].reduce((a, b) => (profile(b) > profile(a) ? b : a), inner);
}

function edge(profile: (q: number) => number, floor: number, best: number, end: number): number {
  if (profile(end) >= floor) return end;
  let inside = best;
  let outside = end;
  for (let step = 0; step < 40; step++) {
    const middle = 0.5 * (inside + outside);
    if (profile(middle) >= floor) inside = middle;
    else outside = middle;
  }
  return inside;
}
