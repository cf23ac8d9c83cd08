import { logPosterior } from './assimilate.ts';
import type { FitSettings, Posterior, Prior } from './assimilate.ts';
import { backSolveInPlace } from '../numeric/cholesky.ts';
import { normalDraws } from './draws.ts';
import type { Evidence } from './evidence.ts';
import { latentCount } from './latents.ts';
import type { Response } from './response.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';

/** Draws for the ranges of one unit; even, above twice the number of unknowns. */
export const drawCount = 64;

/** States of draws at some segments: sludge, chain and phaser of the worse bank; points × draws. */
export interface StateDraws {
  readonly sludge: Float64Array;
  readonly chain: Float64Array;
  readonly phaser: Float64Array;
  /** weight of each draw, together 1 */
  readonly weights: Float64Array;
  /** how many draws kept weight of their own; `drawCount` when the normal approximation is exact */
  readonly effectiveDraws: number;
}

const drawn = new Float64Array(latentCount);
const vector = new Float64Array(latentCount);
const logWeights = new Float64Array(drawCount);

/**
 * States after the evidence: drawn from the normal approximation and re-weighted by the true density, so that thresholds and
 * skewness come through.
 * Method: importance sampling; weights are tempered while fewer than a sixth of the draws would count, and left even where
 * they hardly differ, since mirrored draws of even weight have the middle exactly right.
 * Source: Geweke, "Bayesian inference in econometric models using Monte Carlo integration", Econometrica 57 (1989).
 * @param at segments at whose end the states are wanted
 */
export function stateDraws(
  response: Response,
  evidence: readonly Evidence[],
  prior: Prior,
  posterior: Posterior,
  settings: FitSettings,
  at: readonly number[],
): StateDraws {
  const { active, mode, factor, priorPrecision } = posterior;
  const size = active.length;
  const points = at.length;
  // each unknown keeps its own column, so that what is in play beside it does not change its draws
  const normals = normalDraws(drawCount, latentCount);
  const states = emptyTrajectory(response.segments.length);
  const sludge = new Float64Array(points * drawCount);
  const chain = new Float64Array(points * drawCount);
  const phaser = new Float64Array(points * drawCount);
  for (let row = 0; row < drawCount; row++) {
    drawn.set(mode);
    let distance = 0;
    for (let i = 0; i < size; i++) {
      vector[i] = normals[row * latentCount + active[i]];
      distance += vector[i] * vector[i];
    }
    backSolveInPlace(factor, size, vector);
    for (let i = 0; i < size; i++) drawn[active[i]] += vector[i];
    if (evidence.length > 0)
      logWeights[row] =
        logPosterior(response, evidence, prior, priorPrecision, settings, drawn, states) + distance / 2;
    else trajectoryInto(response, drawn, settings.screenCarry, states);
    for (let p = 0; p < points; p++) {
      const k = at[p];
      const place = p * drawCount + row;
      sludge[place] = states.sludge[k];
      chain[place] = Math.max(states.chain1[k], states.chain2[k]);
      phaser[place] = Math.max(states.phaser1[k], states.phaser2[k]);
    }
  }
  const weights = new Float64Array(drawCount).fill(1 / drawCount);
  if (evidence.length > 0) temper(weights);
  return { sludge, chain, phaser, weights, effectiveDraws: effectiveCount(weights) };
}

function effectiveCount(weights: Float64Array): number {
  let squares = 0;
  for (const weight of weights) squares += weight * weight;
  return 1 / squares;
}

/** Share of the draws that count, from which the normal approximation is good enough as it stands. */
const nearlyAll = 0.8;

function temper(weights: Float64Array): void {
  let top = Number.NEGATIVE_INFINITY;
  for (const value of logWeights) top = Math.max(top, value);
  for (let power = 1; ; power /= 2) {
    let sum = 0;
    for (let i = 0; i < drawCount; i++) {
      weights[i] = power < 1e-3 ? 1 : Math.exp(power * (logWeights[i] - top));
      sum += weights[i];
    }
    for (let i = 0; i < drawCount; i++) weights[i] /= sum;
    const count = effectiveCount(weights);
    if (count > nearlyAll * drawCount) weights.fill(1 / drawCount);
    if (power < 1e-3 || count >= drawCount / 6) return;
  }
}

const order = new Uint16Array(drawCount);
const places = new Float64Array(drawCount);

/**
 * Median and 80 % range of one point's weighted draws.
 * Method: straight lines between the weighted plotting positions, cumulated weight less half the draw's own (Hyndman and
 * Fan, type 5, for equal weights).
 * @param values draws of one point, from `from` on
 * @param weights together 1
 */
export function rangeOfDraws(
  values: Float64Array,
  from: number,
  weights: Float64Array,
): { value: number; low: number; high: number } {
  // few draws in fairly good order from one point to the next: insertion is quicker than a general sort
  for (let i = 0; i < drawCount; i++) {
    const value = values[from + i];
    let j = i;
    while (j > 0 && values[from + order[j - 1]] > value) {
      order[j] = order[j - 1];
      j--;
    }
    order[j] = i;
  }
  let reached = 0;
  for (let i = 0; i < drawCount; i++) {
    const weight = weights[order[i]];
    places[i] = reached + weight / 2;
    reached += weight;
  }
  return {
    value: weightedQuantile(values, from, 0.5),
    low: weightedQuantile(values, from, 0.1),
    high: weightedQuantile(values, from, 0.9),
  };
}

function weightedQuantile(values: Float64Array, from: number, probability: number): number {
  if (probability <= places[0]) return values[from + order[0]];
  for (let i = 1; i < drawCount; i++) {
    if (places[i] < probability) continue;
    const below = values[from + order[i - 1]];
    const part = (probability - places[i - 1]) / (places[i] - places[i - 1]);
    return below + part * (values[from + order[i]] - below);
  }
  return values[from + order[drawCount - 1]];
}
