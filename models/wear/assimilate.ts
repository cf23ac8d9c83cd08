import { factorInPlace, inverseOf, inverseOfFactor, solveInPlace } from '../numeric/cholesky.ts';
import { likelihoodInto } from './evidence.ts';
import type { Evidence, LikelihoodTerm } from './evidence.ts';
import { latent, latentCount } from './latents.ts';
import type { Response } from './response.ts';
import { chainInto, emptyTrajectory, phaserInto, sludgeInto, trajectoryInto } from './trajectory.ts';
import type { Trajectory } from './trajectory.ts';

/** What is believed of the unknowns before the unit's own evidence: normal, over the unknowns that matter here. */
export interface Prior {
  /** places in the vector of unknowns that may move */
  readonly active: readonly number[];
  /** whole vector, in the order of `latent` */
  readonly mean: Float64Array;
  /** over the active ones, row-major */
  readonly covariance: Float64Array;
}

/** What is believed after it: the most likely values and the normal approximation around them. */
export interface Posterior {
  readonly active: readonly number[];
  readonly mode: Float64Array;
  readonly covariance: Float64Array;
  /** Cholesky factor of the precision, for drawing */
  readonly factor: Float64Array;
  readonly priorPrecision: Float64Array;
  /** weight that each piece of evidence kept */
  readonly weights: readonly number[];
}

/** Fixed numbers of the fit. */
export interface FitSettings {
  /** standard deviations from which a record is weighted down */
  readonly outlierLimit: number;
  /** share of the sludge at a cleaning that a screen soon meets again */
  readonly screenCarry: number;
}

const nudge = 1e-4;
/** The first unknowns are those that oil answers to; the others leave what samples show as it is. */
const oilRateCount = 4;
const mostSteps = 25;
/** A step that gains less log-density than this is the last: about 0.004 standard deviations are left. */
const settledGain = 1e-5;

/** Log-density of the unknowns given all evidence, up to a constant. */
export function logPosterior(
  response: Response,
  evidence: readonly Evidence[],
  prior: Prior,
  precision: Float64Array,
  settings: FitSettings,
  unknowns: Float64Array,
  states: ReturnType<typeof emptyTrajectory>,
): number {
  let sum = 0;
  if (evidence.length > 0) {
    trajectoryInto(response, unknowns, settings.screenCarry, states);
    for (const piece of evidence) {
      likelihoodInto(piece.likelihood, piece.expect(states, unknowns), settings.outlierLimit, term);
      sum += term.logLikelihood;
    }
  }
  const size = prior.active.length;
  for (let i = 0; i < size; i++) {
    const a = unknowns[prior.active[i]] - prior.mean[prior.active[i]];
    for (let j = 0; j < size; j++)
      sum -= 0.5 * a * precision[i * size + j] * (unknowns[prior.active[j]] - prior.mean[prior.active[j]]);
  }
  return sum;
}

const term: LikelihoodTerm = { logLikelihood: 0, slope: 0, information: 0, weight: 1 };

/** The states after a move of one unknown; what it does not touch is taken from `states`. */
function movedInto(
  index: number,
  response: Response,
  unknowns: Float64Array,
  settings: FitSettings,
  states: Trajectory,
  aside: Trajectory,
): Trajectory {
  switch (index) {
    case latent.baseNumberLife:
    case latent.phaseBias1:
    case latent.phaseBias2:
    case latent.phaseOffset:
      return states;
    case latent.precursor:
    case latent.sludge:
    case latent.background:
    case latent.contrastSludge:
    case latent.driftSludge:
    case latent.beforeSludge: {
      const { chain1, chain2 } = states;
      const moved = { ...aside, chain1, chain2 };
      sludgeInto(response, unknowns, settings.screenCarry, moved);
      phaserInto(response, unknowns, moved);
      return moved;
    }
    case latent.screenCarry: {
      const moved = { ...states, sludge: aside.sludge, screen: aside.screen };
      sludgeInto(response, unknowns, settings.screenCarry, moved);
      return moved;
    }
    case latent.oxidation:
    case latent.chain:
    case latent.driftChain:
    case latent.beforeChain:
    case latent.bankChain: {
      const { sludge, screen, phaser1, phaser2 } = states;
      const moved = { sludge, screen, phaser1, phaser2, chain1: aside.chain1, chain2: aside.chain2 };
      chainInto(response, unknowns, moved);
      return moved;
    }
    case latent.phaser:
    case latent.driftPhaser:
    case latent.beforePhaser:
    case latent.bankPhaser: {
      const { sludge, screen, chain1, chain2 } = states;
      const moved = { sludge, screen, chain1, chain2, phaser1: aside.phaser1, phaser2: aside.phaser2 };
      phaserInto(response, unknowns, moved);
      return moved;
    }
    default:
      trajectoryInto(response, unknowns, settings.screenCarry, aside);
      return aside;
  }
}

/**
 * One joint update of all unknowns with all evidence; the order of the records does not matter.
 * Method: Gauss-Newton (Fisher scoring) to the most likely values, then the normal approximation there (Laplace).
 * Source: Bell and Cathey, "The iterated Kalman filter update as a Gauss-Newton method", IEEE TAC 38 (1993).
 * Example: prior 0.30 ± 0.12, a reading of 4.5 with 7.5 per unit and sd 1.2 → 0.408 ± 0.096.
 */
export function assimilate(
  response: Response,
  evidence: readonly Evidence[],
  prior: Prior,
  settings: FitSettings,
): Posterior {
  const { active } = prior;
  const size = active.length;
  const precision = inverseOf(prior.covariance, size);
  const unknowns = prior.mean.slice();
  if (evidence.length === 0) {
    const factor = precision.slice();
    factorInPlace(factor, size);
    return {
      active,
      mode: unknowns,
      covariance: prior.covariance,
      factor,
      priorPrecision: precision,
      weights: [],
    };
  }
  const states = emptyTrajectory(response.segments.length);
  const aside = emptyTrajectory(response.segments.length);
  const count = evidence.length;
  const expected = new Float64Array(count);
  const slopes = new Float64Array(count * size);
  const gradient = new Float64Array(size);
  const information = new Float64Array(size * size);
  const weights = new Array<number>(count).fill(1);
  const trial = new Float64Array(latentCount);
  let value = logPosterior(response, evidence, prior, precision, settings, unknowns, states);
  for (let round = 0; round < mostSteps; round++) {
    // the states of these unknowns stand there since their density was asked for
    for (let e = 0; e < count; e++) expected[e] = evidence[e].expect(states, unknowns);
    for (let i = 0; i < size; i++) {
      const held = unknowns[active[i]];
      unknowns[active[i]] = held + nudge;
      const moved = movedInto(active[i], response, unknowns, settings, states, aside);
      for (let e = 0; e < count; e++)
        if (active[i] < oilRateCount || evidence[e].state !== 'oil')
          slopes[e * size + i] = (evidence[e].expect(moved, unknowns) - expected[e]) / nudge;
      unknowns[active[i]] = held;
    }
    information.set(precision);
    for (let i = 0; i < size; i++) {
      let pull = 0;
      for (let j = 0; j < size; j++)
        pull -= precision[i * size + j] * (unknowns[active[j]] - prior.mean[active[j]]);
      gradient[i] = pull;
    }
    for (let e = 0; e < count; e++) {
      likelihoodInto(evidence[e].likelihood, expected[e], settings.outlierLimit, term);
      weights[e] = term.weight;
      for (let i = 0; i < size; i++) {
        const slope = slopes[e * size + i];
        if (slope === 0) continue;
        gradient[i] += term.slope * slope;
        for (let j = 0; j < size; j++)
          information[i * size + j] += term.information * slope * slopes[e * size + j];
      }
    }
    if (!factorInPlace(information, size))
      throw new Error('information of the evidence must be finite, got a value that is not');
    solveInPlace(information, size, gradient);
    let length = 1;
    let largest = 0;
    for (let i = 0; i < size; i++)
      largest = Math.max(largest, Math.abs(gradient[i]) / Math.sqrt(prior.covariance[i * size + i]));
    if (largest > 2) length = 2 / largest;
    let moved = false;
    for (let attempt = 0; attempt < 6; attempt++, length /= 2) {
      trial.set(unknowns);
      for (let i = 0; i < size; i++) trial[active[i]] += length * gradient[i];
      const next = logPosterior(response, evidence, prior, precision, settings, trial, states);
      if (next >= value) {
        moved = next - value > settledGain;
        unknowns.set(trial);
        value = next;
        break;
      }
    }
    if (!moved) break;
  }
  const covariance = inverseOfFactor(information, size);
  return { active, mode: unknowns, covariance, factor: information, priorPrecision: precision, weights };
}
