import { logPosterior } from './assimilate.ts';
import type { FitSettings, Posterior, Prior } from './assimilate.ts';
import { backSolveInPlace } from './cholesky.ts';
import { normalDraws } from './draws.ts';
import type { Evidence } from './evidence.ts';
import { latentCount } from './latents.ts';
import type { Response } from './response.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';

/** Draws for the ranges of one unit; even, above twice the number of unknowns. */
export const drawCount = 64;

/** States of equally likely draws at some segments: sludge, chain and phaser of the worse bank; points × draws. */
export interface StateDraws {
  readonly sludge: Float64Array;
  readonly chain: Float64Array;
  readonly phaser: Float64Array;
  /** how many draws kept weight of their own; `drawCount` when the normal approximation is exact */
  readonly effectiveDraws: number;
}

const drawn = new Float64Array(latentCount);
const vector = new Float64Array(latentCount);
const logWeights = new Float64Array(drawCount);
const weights = new Float64Array(drawCount);
const chosen = new Uint16Array(drawCount);

/**
 * States after the evidence: drawn from the normal approximation, re-weighted by the true density and resampled evenly, so
 * that thresholds and skewness come through.
 * Method: importance sampling with systematic resampling; weights are tempered while fewer than a sixth would count.
 * Source: Kitagawa, "Monte Carlo filter and smoother", J. Comput. Graph. Stat. 5 (1996).
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
  const normals = normalDraws(drawCount, size);
  const states = emptyTrajectory(response.segments.length);
  const sludge = new Float64Array(points * drawCount);
  const chain = new Float64Array(points * drawCount);
  const phaser = new Float64Array(points * drawCount);
  for (let row = 0; row < drawCount; row++) {
    drawn.set(mode);
    let distance = 0;
    for (let i = 0; i < size; i++) {
      vector[i] = normals[row * size + i];
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
  if (evidence.length === 0) return { sludge, chain, phaser, effectiveDraws: drawCount };
  temper();
  choose();
  for (const values of [sludge, chain, phaser]) gather(values, points);
  return { sludge, chain, phaser, effectiveDraws: effectiveCount() };
}

function effectiveCount(): number {
  let squares = 0;
  for (const weight of weights) squares += weight * weight;
  return 1 / squares;
}

function temper(): void {
  let top = Number.NEGATIVE_INFINITY;
  for (const value of logWeights) top = Math.max(top, value);
  for (let power = 1; ; power /= 2) {
    let sum = 0;
    for (let i = 0; i < drawCount; i++) {
      weights[i] = power < 1e-3 ? 1 : Math.exp(power * (logWeights[i] - top));
      sum += weights[i];
    }
    for (let i = 0; i < drawCount; i++) weights[i] /= sum;
    if (power < 1e-3 || effectiveCount() >= drawCount / 6) return;
  }
}

/** Systematic resampling: which draw stands at each of the even places. */
function choose(): void {
  let row = 0;
  let reached = weights[0];
  for (let i = 0; i < drawCount; i++) {
    const wanted = (i + 0.5) / drawCount;
    while (reached < wanted && row < drawCount - 1) reached += weights[++row];
    chosen[i] = row;
  }
}

const kept = new Float64Array(drawCount);

function gather(values: Float64Array, points: number): void {
  for (let p = 0; p < points; p++) {
    const from = p * drawCount;
    for (let i = 0; i < drawCount; i++) kept[i] = values[from + chosen[i]];
    values.set(kept, from);
  }
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
