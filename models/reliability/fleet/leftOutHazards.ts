import { choleskySolve } from '../../numeric/cholesky.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import { episodeLogLikelihood, episodeWorkFor } from './episodeLikelihood.ts';
import type { SpreadNode } from './structureFit.ts';
import { localParameters, placesOf } from './structurePosterior.ts';
import type { ParameterLayout } from './structurePosterior.ts';
import { windowHazardsAt } from './trainingWindows.ts';

/** One step of the jackknife is trusted this far on each log parameter. */
const largestMove = 1;

/**
 * Cumulative hazard in each window as the other episodes alone would have it: at the mode less Σ g of the window's own episode, g its gradient and Σ the
 * posterior covariance (the infinitesimal jackknife; Giordano et al., AISTATS 2019). A model judged on what it was fitted to looks surer than it is.
 */
export function leftOutHazards(
  fleet: CompiledFleet,
  layout: ParameterLayout,
  { mode, precisionFactor }: SpreadNode,
): Float64Array {
  const work = episodeWorkFor(fleet);
  const gradient = new Float64Array(layout.size);
  return windowHazardsAt(fleet, (episode) => {
    const family = fleet.family[episode];
    episodeLogLikelihood(fleet, episode, localParameters(layout, mode, family), work, true);
    gradient.fill(0);
    placesOf(layout, family).forEach((place, i) => (gradient[place] = work.gradient[i]));
    const moved = choleskySolve(precisionFactor, layout.size, gradient);
    const at = mode.map((value, i) => value - Math.min(Math.max(moved[i], -largestMove), largestMove));
    return localParameters(layout, at, family);
  });
}
