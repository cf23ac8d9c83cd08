import { cholesky, choleskyLogDeterminant } from '../../numeric/cholesky.ts';
import { minimise } from '../../numeric/minimise.ts';
import { clockPathFor } from './clockPath.ts';
import type { Clock } from './clocks.ts';
import type { CompiledFleet } from './compiledFleet.ts';
import type { LogPrior } from './fleetPriors.ts';
import { cumulativeHazards } from './hazardAhead.ts';
import {
  familyFrom,
  fleetScaleAt,
  localParameters,
  shapeAt,
  structurePosterior,
} from './structurePosterior.ts';
import type { ParameterLayout } from './structurePosterior.ts';

/** Maximum a posteriori and curvature at one family spread. */
export interface SpreadNode {
  /** standard deviation of log scale between families */
  readonly spread: number;
  /** the same in standard deviations of its prior */
  readonly deviate: number;
  readonly mode: Float64Array;
  /** lower Cholesky factor of the negative log posterior's Hessian */
  readonly precisionFactor: Float64Array;
  /** posterior probability of this node */
  readonly weight: number;
  readonly converged: boolean;
}

/** One clock fitted: the family spread is summed over on a grid, everything else by its mode and curvature there. */
export interface StructureFit {
  readonly clock: Clock;
  readonly layout: ParameterLayout;
  readonly nodes: readonly SpreadNode[];
  /** the node with the highest posterior */
  readonly best: SpreadNode;
}

/** Steps, in prior standard deviations of the log spread, at which the posterior is looked up. */
const gridStep = 0.7;
const stepsEachWay = 3;

/**
 * Posterior mode of one clock's model for each family spread on a grid, with the marginal likelihood of the spread by Laplace's method
 * (after Rue, Martino & Chopin, JRSS B 71, 2009, with a Gaussian at each node). A mode over the spread itself would lie at 0.
 */
export function fitStructure(
  clock: Clock,
  fleet: CompiledFleet,
  layout: ParameterLayout,
  spreadPrior: LogPrior,
): StructureFit {
  const nodeAt = (deviate: number, start: Float64Array) => {
    const spread = Math.exp(spreadPrior.mean + deviate * spreadPrior.sd);
    const evaluate = structurePosterior(fleet, layout, spread);
    const found = minimise(evaluate, start, { maximumSteps: 60, tolerance: 1e-7 });
    const precisionFactor = positiveFactor(found.hessian, layout.size);
    const logWeight =
      -found.value -
      layout.families * Math.log(spread) -
      0.5 * choleskyLogDeterminant(precisionFactor, layout.size) -
      0.5 * deviate * deviate;
    return { spread, deviate, mode: found.at, precisionFactor, logWeight, converged: found.converged };
  };
  const middle = nodeAt(0, startFor(fleet, layout));
  const found = [middle];
  for (const side of [1, -1])
    for (let step = 1, start = middle.mode; step <= stepsEachWay; step++) {
      const node = nodeAt(side * step * gridStep, start);
      found.push(node);
      start = node.mode;
    }
  const most = Math.max(...found.map((node) => node.logWeight));
  const total = found.reduce((sum, node) => sum + Math.exp(node.logWeight - most), 0);
  const nodes = found.map(({ logWeight, ...node }) => ({
    ...node,
    weight: Math.exp(logWeight - most) / total,
  }));
  return { clock, layout, nodes, best: nodes.reduce((a, b) => (b.weight > a.weight ? b : a)) };
}

/** Prior means, with all scales moved together so that about as many failures are expected as were seen. */
function startFor(fleet: CompiledFleet, layout: ParameterLayout): Float64Array {
  const start = Float64Array.from(layout.priors, (prior) => prior.mean);
  const path = clockPathFor(fleet);
  const hazards = new Float64Array(fleet.longestRunCount + 1);
  const at = localParameters(layout, start, -1);
  let expected = 0;
  let seen = 0;
  for (let e = 0; e < fleet.episodeCount; e++) {
    cumulativeHazards(fleet, e, at, path, hazards);
    expected += hazards[fleet.runFrom[e + 1] - fleet.runFrom[e]];
    seen += fleet.failed[e];
  }
  const shift = Math.log((expected + 1) / (seen + 1)) / Math.exp(start[shapeAt]);
  for (let i = fleetScaleAt; i < familyFrom + layout.families; i++)
    start[i] = Math.min(Math.max(shift, -4), 4);
  return start;
}

/**
 * Cholesky factor, with the diagonal raised as little as it takes where rounding left the matrix not quite positive definite.
 * @throws RangeError when the matrix holds what is no number
 */
function positiveFactor(hessian: Float64Array, size: number): Float64Array {
  let ridge = 0;
  for (let attempt = 0; attempt < 40; attempt++, ridge = ridge === 0 ? 1e-8 : ridge * 10) {
    const raised = Float64Array.from(hessian);
    for (let i = 0; i < size; i++) raised[i * size + i] += ridge * (1 + Math.abs(hessian[i * size + i]));
    const factor = cholesky(raised, size);
    if (factor) return factor;
  }
  throw new RangeError('fitStructure: the curvature of the posterior must be finite');
}
