import { drawFromT, logTDensity } from '../posterior/importanceDraws.ts';
import { laplaceDraws } from '../posterior/laplaceDraws.ts';
import { resampleIndices, smoothWeights } from '../posterior/smoothWeights.ts';
import type { Random } from '../../numeric/random.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import type { StructureFit } from './structureFit.ts';
import { structureLogPosterior } from './structurePosterior.ts';

/** One draw of all parameters of one clock's model. */
export interface ParameterDraw {
  readonly at: Float64Array;
  readonly spread: number;
}

export interface StructureDraws {
  readonly draws: readonly ParameterDraw[];
  /** null: not resampled; above 0.7 the draws are not to be trusted */
  readonly paretoK: number | null;
}

/** Draws from the Gaussians at the spread nodes, each node as often as its posterior probability says. */
export function drawByLaplace({ nodes }: StructureFit, count: number, random: Random): StructureDraws {
  const picked = resampleIndices(
    Float64Array.from(nodes, (node) => node.weight),
    count,
    random,
  );
  const draws = Array.from(picked, (k) => {
    const { mode, precisionFactor, spread } = nodes[k];
    return { at: laplaceDraws(mode, precisionFactor, 1, random)[0], spread };
  });
  return { draws, paretoK: null };
}

/** Stretches of use that resampling may go through; more proposals than that would make a refit slow. */
const workLimit = 6e7;

/**
 * Draws by importance resampling of t proposals around the modes at the spread nodes, for fleets with few failures, where the Gaussian is too
 * narrow.
 */
export function drawByResampling(
  { nodes, layout }: StructureFit,
  fleet: CompiledFleet,
  count: number,
  random: Random,
): StructureDraws {
  const work = fleet.full.length + 4 * fleet.nodeShare.length;
  const proposed = Math.round(Math.min(2000, 60 + 6 * count, Math.max(150, workLimit / work)));
  const picked = resampleIndices(
    Float64Array.from(nodes, (node) => node.weight),
    proposed,
    random,
  );
  const logPosterior = structureLogPosterior(fleet, layout);
  const tried = Array.from(picked, (k) => {
    const node = nodes[k];
    const at = new Float64Array(layout.size);
    drawFromT(node, random, at);
    const target =
      logPosterior(at, node.spread) - layout.families * Math.log(node.spread) - node.deviate ** 2 / 2;
    const weight = target - logTDensity(node, at) - Math.log(node.weight);
    return { draw: { at, spread: node.spread }, weight: Number.isNaN(weight) ? -Infinity : weight };
  });
  const { weights, paretoK } = smoothWeights(tried.map((one) => one.weight));
  const kept = resampleIndices(weights, count, random);
  return { draws: Array.from(kept, (i) => tried[i].draw), paretoK };
}

/** Draws moved away from their mean by a factor. */
export function widenDraws({ draws, paretoK }: StructureDraws, factor: number): StructureDraws {
  if (factor === 1 || draws.length < 2) return { draws, paretoK };
  const size = draws[0].at.length;
  const mean = new Float64Array(size);
  for (const { at } of draws) for (let i = 0; i < size; i++) mean[i] += at[i] / draws.length;
  return {
    draws: draws.map(({ at, spread }) => ({
      at: at.map((value, i) => mean[i] + factor * (value - mean[i])),
      spread,
    })),
    paretoK,
  };
}
