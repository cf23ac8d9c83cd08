import type { SecondOrderFunction } from '../../numeric/minimise.ts';
import { clockPathFor } from './clockPath.ts';
import type { Clock } from './clocks.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import type { CovariateSpec } from './covariateSpec.ts';
import { episodeLogLikelihood, episodeWorkFor } from './episodeLikelihood.ts';
import type { EpisodeWork } from './episodeLikelihood.ts';
import { episodeValue } from './episodeValue.ts';
import type { FleetPriors, LogPrior } from './fleetPriors.ts';
import type { LocalParameters } from './localParameters.ts';

/**
 * Where each parameter of one clock's model stands: log shape, fleet log scale, one log scale per family, clock effects, log idle weight
 * (if any), evidence effects. Log scales are in prior lifetimes.
 */
export interface ParameterLayout {
  readonly families: number;
  readonly clockFrom: number;
  readonly idleAt: number | null;
  readonly evidenceFrom: number;
  readonly size: number;
  /** priors of all but the family scales, in place */
  readonly priors: readonly LogPrior[];
}

export const shapeAt = 0;
export const fleetScaleAt = 1;
export const familyFrom = 2;

export function layoutFor(
  clock: Clock,
  covariates: readonly CovariateSpec[],
  families: number,
  priors: FleetPriors,
): ParameterLayout {
  const effects = (kind: CovariateSpec['kind']) =>
    covariates
      .filter((spec) => spec.kind === kind)
      .map(({ priorMean, priorSd }) => ({ mean: priorMean, sd: priorSd }));
  const clockEffects = clock.withCovariates ? effects('clock') : [];
  const evidenceEffects = effects('evidence');
  const clockFrom = familyFrom + families;
  const idleAt = clock.withIdleWeight ? clockFrom + clockEffects.length : null;
  const evidenceFrom = clockFrom + clockEffects.length + (idleAt === null ? 0 : 1);
  const free = { mean: 0, sd: Infinity };
  return {
    families,
    clockFrom,
    idleAt,
    evidenceFrom,
    size: evidenceFrom + evidenceEffects.length,
    priors: [
      clock.shape,
      { mean: 0, sd: clock.life.sd },
      ...new Array<LogPrior>(families).fill(free),
      ...clockEffects,
      ...(idleAt === null ? [] : [priors.idleWeight]),
      ...evidenceEffects,
    ],
  };
}

/** An episode's parameters out of the whole vector; a family the fit has not seen (−1) stands at the fleet's scale. */
export function localParameters(layout: ParameterLayout, at: Float64Array, family: number): LocalParameters {
  return {
    shape: Math.exp(at[shapeAt]),
    logScale: at[family < 0 ? fleetScaleAt : familyFrom + family],
    clockEffects: at.subarray(layout.clockFrom, layout.idleAt ?? layout.evidenceFrom),
    idleWeight: layout.idleAt === null ? 0 : Math.exp(at[layout.idleAt]),
    evidenceEffects: at.subarray(layout.evidenceFrom),
  };
}

/** For each local parameter its place in the whole vector. */
export function placesOf(layout: ParameterLayout, family: number): Int32Array {
  const rest = Array.from({ length: layout.size - layout.clockFrom }, (_, k) => layout.clockFrom + k);
  return Int32Array.from([shapeAt, family < 0 ? fleetScaleAt : familyFrom + family, ...rest]);
}

/** Adds the negative log prior (constants left out) at a given family spread; returns its value. */
export function addPriors(
  layout: ParameterLayout,
  spread: number,
  at: Float64Array,
  gradient: Float64Array | null,
  hessian: Float64Array | null,
): number {
  const { size, families, priors } = layout;
  let value = 0;
  const add = (i: number, miss: number, sd: number) => {
    value += (0.5 * miss * miss) / (sd * sd);
    if (gradient) gradient[i] += miss / (sd * sd);
    if (hessian) hessian[i * size + i] += 1 / (sd * sd);
  };
  for (let i = 0; i < size; i++) if (priors[i].sd < Infinity) add(i, at[i] - priors[i].mean, priors[i].sd);
  for (let g = 0; g < families; g++) {
    const i = familyFrom + g;
    const miss = at[i] - at[fleetScaleAt];
    add(i, miss, spread);
    if (gradient) gradient[fleetScaleAt] -= miss / (spread * spread);
    if (!hessian) continue;
    hessian[fleetScaleAt * size + fleetScaleAt] += 1 / (spread * spread);
    hessian[i * size + fleetScaleAt] -= 1 / (spread * spread);
  }
  return value;
}

/** Negative log posterior at a given family spread, with exact gradient and lower Hessian. */
export function structurePosterior(
  fleet: CompiledFleet,
  layout: ParameterLayout,
  spread: number,
): SecondOrderFunction {
  const work = episodeWorkFor(fleet);
  const places = Array.from({ length: layout.families }, (_, family) => placesOf(layout, family));
  return (at, gradient, hessian) => {
    gradient.fill(0);
    hessian.fill(0);
    let value = addPriors(layout, spread, at, gradient, hessian);
    const local = Array.from({ length: layout.families }, (_, family) => localParameters(layout, at, family));
    for (let e = 0; e < fleet.episodeCount; e++) {
      const family = fleet.family[e];
      value -= episodeLogLikelihood(fleet, e, local[family], work, true);
      scatter(work, places[family], layout.size, gradient, hessian);
    }
    return Number.isFinite(value) ? value : Infinity;
  };
}

function scatter(
  work: EpisodeWork,
  places: Int32Array,
  size: number,
  gradient: Float64Array,
  hessian: Float64Array,
): void {
  const { localCount } = work;
  for (let i = 0; i < localCount; i++) {
    const row = places[i];
    gradient[row] -= work.gradient[i];
    // places ascend, so the lower triangle stays the lower triangle
    for (let k = 0; k <= i; k++) hessian[row * size + places[k]] -= work.hessian[i * localCount + k];
  }
}

/** Log posterior without derivatives, −Infinity outside the domain; constants left out. */
export function structureLogPosterior(
  fleet: CompiledFleet,
  layout: ParameterLayout,
): (at: Float64Array, spread: number) => number {
  const path = clockPathFor(fleet);
  return (at, spread) => {
    let value = -addPriors(layout, spread, at, null, null);
    const local = Array.from({ length: layout.families }, (_, family) => localParameters(layout, at, family));
    for (let e = 0; e < fleet.episodeCount; e++)
      value += episodeValue(fleet, e, local[fleet.family[e]], path);
    return Number.isNaN(value) ? -Infinity : value;
  };
}
