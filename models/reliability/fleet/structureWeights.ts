import { choleskySolve } from '../../numeric/cholesky.ts';
import type { Random } from '../../numeric/random.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import { episodeLogLikelihood, episodeWorkFor } from './episodeLikelihood.ts';
import { localParameters, placesOf } from './structurePosterior.ts';
import type { StructureFit } from './structureFit.ts';

/**
 * Log density of each episode predicted by the others: l_i at the mode less g_i'Σ g_i, what leaving the episode out moves it to first order
 * (the infinitesimal jackknife; Giordano et al., AISTATS 2019).
 */
export function leaveOneOutScores({ layout, best }: StructureFit, fleet: CompiledFleet): Float64Array {
  const work = episodeWorkFor(fleet);
  const scores = new Float64Array(fleet.episodeCount);
  const gradient = new Float64Array(layout.size);
  for (let e = 0; e < fleet.episodeCount; e++) {
    const family = fleet.family[e];
    const value = episodeLogLikelihood(fleet, e, localParameters(layout, best.mode, family), work, true);
    gradient.fill(0);
    placesOf(layout, family).forEach((place, i) => (gradient[place] = work.gradient[i]));
    const moved = choleskySolve(best.precisionFactor, layout.size, gradient);
    let pull = 0;
    for (let i = 0; i < layout.size; i++) pull += gradient[i] * moved[i];
    scores[e] = value - pull;
  }
  return scores;
}

const resamplings = 100;
const evenShare = 0.15;

/**
 * Weights of several models by their leave-one-out scores: pseudo-BMA with the Bayesian bootstrap, which keeps one lucky score from deciding
 * (Yao, Vehtari, Simpson & Gelman, Bayesian Analysis 13, 2018), a part of which is spread evenly.
 * @param scores one list per model, same episodes in each
 * @returns adding up to 1
 */
export function structureWeights(scores: readonly Float64Array[], random: Random): number[] {
  if (scores.length === 1) return [1];
  const count = scores[0].length;
  const weights = scores.map(() => evenShare / scores.length);
  const totals = new Float64Array(scores.length);
  for (let b = 0; b < resamplings; b++) {
    totals.fill(0);
    let mass = 0;
    for (let i = 0; i < count; i++) {
      const share = -Math.log(1 - random());
      mass += share;
      for (let k = 0; k < scores.length; k++) totals[k] += share * scores[k][i];
    }
    let most = -Infinity;
    for (let k = 0; k < scores.length; k++) {
      totals[k] *= mass > 0 ? count / mass : 0;
      most = Math.max(most, totals[k]);
    }
    const odds = Array.from(totals, (total) => Math.exp(total - most));
    const sum = odds.reduce((a, c) => a + c, 0);
    odds.forEach((odd, k) => (weights[k] += ((1 - evenShare) * odd) / sum / resamplings));
  }
  return weights;
}
