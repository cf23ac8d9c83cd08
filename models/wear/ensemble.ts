import { logPosterior } from './assimilate.ts';
import type { FitSettings, Posterior, Prior } from './assimilate.ts';
import { backSolveInPlace } from './cholesky.ts';
import { normalDraws } from './draws.ts';
import type { Evidence } from './evidence.ts';
import { latentCount } from './latents.ts';
import type { Response } from './response.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';

/** Draws for the ranges of one unit; even, above twice the number of unknowns. */
export const drawCount = 96;

/** Values of the unknowns that stand for what is believed, equally likely. */
export interface Ensemble {
  /** draws × unknowns, row-major */
  readonly unknowns: Float64Array;
  /** how many draws kept weight of their own; `drawCount` when the normal approximation is exact */
  readonly effectiveDraws: number;
}

/**
 * Draws from what is believed after the evidence: from the normal approximation, re-weighted by the true density and
 * resampled evenly, so that thresholds and skewness come through.
 * Method: importance sampling with systematic resampling; weights are tempered while fewer than a sixth would count.
 * Source: Kitagawa, "Monte Carlo filter and smoother", J. Comput. Graph. Stat. 5 (1996).
 */
export function ensembleOf(
  response: Response,
  evidence: readonly Evidence[],
  prior: Prior,
  posterior: Posterior,
  settings: FitSettings,
): Ensemble {
  const { active, mode, factor, priorPrecision } = posterior;
  const size = active.length;
  const normals = normalDraws(drawCount, size);
  const drawn = new Float64Array(drawCount * latentCount);
  const logWeights = new Float64Array(drawCount);
  const states = emptyTrajectory(response.segments.length);
  const vector = new Float64Array(size);
  for (let row = 0; row < drawCount; row++) {
    const unknowns = drawn.subarray(row * latentCount, (row + 1) * latentCount);
    unknowns.set(mode);
    let distance = 0;
    for (let i = 0; i < size; i++) {
      vector[i] = normals[row * size + i];
      distance += vector[i] * vector[i];
    }
    backSolveInPlace(factor, size, vector);
    for (let i = 0; i < size; i++) unknowns[active[i]] += vector[i];
    if (evidence.length > 0)
      logWeights[row] =
        logPosterior(response, evidence, prior, priorPrecision, settings, unknowns, states) + distance / 2;
  }
  if (evidence.length === 0) return { unknowns: drawn, effectiveDraws: drawCount };
  const weights = temper(logWeights);
  return { unknowns: resample(drawn, weights), effectiveDraws: effectiveCount(weights) };
}

function effectiveCount(weights: Float64Array): number {
  let squares = 0;
  for (const weight of weights) squares += weight * weight;
  return 1 / squares;
}

function temper(logWeights: Float64Array): Float64Array {
  let top = Number.NEGATIVE_INFINITY;
  for (const value of logWeights) top = Math.max(top, value);
  const weights = new Float64Array(logWeights.length);
  for (let power = 1; ; power /= 2) {
    let sum = 0;
    for (let i = 0; i < weights.length; i++) {
      weights[i] = power < 1e-3 ? 1 : Math.exp(power * (logWeights[i] - top));
      sum += weights[i];
    }
    for (let i = 0; i < weights.length; i++) weights[i] /= sum;
    if (power < 1e-3 || effectiveCount(weights) >= drawCount / 6) return weights;
  }
}

function resample(drawn: Float64Array, weights: Float64Array): Float64Array {
  const kept = new Float64Array(drawn.length);
  let row = 0;
  let reached = weights[0];
  for (let i = 0; i < drawCount; i++) {
    const at = (i + 0.5) / drawCount;
    while (reached < at && row < drawCount - 1) reached += weights[++row];
    kept.set(drawn.subarray(row * latentCount, (row + 1) * latentCount), i * latentCount);
  }
  return kept;
}

/** States of every draw at the segments asked for: sludge, chain and phaser of the worse bank; points × draws. */
export interface StateDraws {
  readonly sludge: Float64Array;
  readonly chain: Float64Array;
  readonly phaser: Float64Array;
}

/** Runs all draws and keeps the states at the end of `at` segments. */
export function stateDraws(
  response: Response,
  ensemble: Ensemble,
  at: readonly number[],
  settings: FitSettings,
): StateDraws {
  const points = at.length;
  const sludge = new Float64Array(points * drawCount);
  const chain = new Float64Array(points * drawCount);
  const phaser = new Float64Array(points * drawCount);
  const states = emptyTrajectory(response.segments.length);
  for (let row = 0; row < drawCount; row++) {
    const unknowns = ensemble.unknowns.subarray(row * latentCount, (row + 1) * latentCount);
    trajectoryInto(response, unknowns, settings.screenCarry, states);
    for (let p = 0; p < points; p++) {
      const k = at[p];
      const place = p * drawCount + row;
      sludge[place] = states.sludge[k];
      chain[place] = Math.max(states.chain1[k], states.chain2[k]);
      phaser[place] = Math.max(states.phaser1[k], states.phaser2[k]);
    }
  }
  return { sludge, chain, phaser };
}

/**
 * Median and 80 % range of one point's draws.
 * @param draws values of one point; sorted in place
 */
export function rangeOfDraws(draws: Float64Array): { value: number; low: number; high: number } {
  draws.sort();
  return { value: quantile(draws, 0.5), low: quantile(draws, 0.1), high: quantile(draws, 0.9) };
}

/** Quantile of sorted values by straight line between plotting positions (i − ½)/n (Hyndman and Fan, type 5). */
export function quantile(sorted: Float64Array, probability: number): number {
  const place = probability * sorted.length - 0.5;
  const below = Math.max(0, Math.min(sorted.length - 1, Math.floor(place)));
  const above = Math.min(sorted.length - 1, below + 1);
  const part = Math.min(1, Math.max(0, place - below));
  return sorted[below] + part * (sorted[above] - sorted[below]);
}
