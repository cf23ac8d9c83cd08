import { choleskyLogDeterminant } from '../../numeric/cholesky.ts';
import { normalDraw } from '../../numeric/random.ts';
import type { Random } from '../../numeric/random.ts';
import { solveTransposed } from './laplaceDraws.ts';
import { resampleIndices, smoothWeights } from './smoothWeights.ts';

/** Student t proposal with a posterior's mode and curvature. */
export interface Proposal {
  readonly mode: Float64Array;
  /** lower Cholesky factor of the negative log posterior's Hessian, row-major */
  readonly precisionFactor: Float64Array;
}

export interface ImportanceDraws {
  readonly draws: Float64Array[];
  readonly paretoK: number;
  readonly effectiveCount: number;
}

const degrees = 5;

/** One draw from the multivariate t with five degrees of freedom around a mode, written over `draw`. */
export function drawFromT(proposal: Proposal, random: Random, draw: Float64Array): void {
  for (let i = 0; i < draw.length; i++) draw[i] = normalDraw(random);
  solveTransposed(proposal.precisionFactor, draw);
  let chiSquare = 0;
  for (let k = 0; k < degrees; k++) chiSquare += normalDraw(random) ** 2;
  const stretch = Math.sqrt(degrees / chiSquare);
  for (let i = 0; i < draw.length; i++) draw[i] = proposal.mode[i] + stretch * draw[i];
}

/** Log density of that t, up to a constant that depends on the dimension alone. */
export function logTDensity({ mode, precisionFactor }: Proposal, at: Float64Array): number {
  const size = mode.length;
  let square = 0;
  for (let j = 0; j < size; j++) {
    let sum = 0;
    for (let i = j; i < size; i++) sum += precisionFactor[i * size + j] * (at[i] - mode[i]);
    square += sum * sum;
  }
  return (
    0.5 * choleskyLogDeterminant(precisionFactor, size) -
    0.5 * (degrees + size) * Math.log1p(square / degrees)
  );
}

/**
 * Draws from a posterior by importance resampling of a t with five degrees of freedom around its mode, with Pareto-smoothed
 * weights (Gelman et al., Bayesian Data Analysis, section 10.4; Vehtari et al. 2015). For posteriors of a few events, where the
 * Gaussian is too narrow.
 * @param logPosterior up to a constant; −Infinity outside the domain
 * @param proposed number of proposals, `kept` of which are drawn by weight
 * @returns draws and Pareto k; above 0.7 the draws are not to be trusted
 */
export function importanceDraws(
  logPosterior: (at: Float64Array) => number,
  proposal: Proposal,
  proposed: number,
  kept: number,
  random: Random,
): ImportanceDraws {
  const tried = Array.from({ length: proposed }, () => {
    const draw = new Float64Array(proposal.mode.length);
    drawFromT(proposal, random, draw);
    return draw;
  });
  const logWeights = tried.map((draw) => {
    const weight = logPosterior(draw) - logTDensity(proposal, draw);
    return Number.isNaN(weight) ? -Infinity : weight;
  });
  const { weights, paretoK, effectiveCount } = smoothWeights(logWeights);
  const picked = resampleIndices(weights, kept, random);
  return { draws: Array.from(picked, (i) => tried[i]), paretoK, effectiveCount };
}
