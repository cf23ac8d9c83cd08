import type { Coefficients } from '../schema/coefficient.ts';
import { backSolveInPlace, factorInPlace } from './cholesky.ts';
import { normalDraws } from './draws.ts';
import { drawCount } from './ensemble.ts';
import { likelihoodInto } from './evidence.ts';
import type { Likelihood, LikelihoodTerm } from './evidence.ts';
import { latentCount } from './latents.ts';
import type { SpreadScales } from './latents.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';
import type { UnitAnalysis } from './unitAnalysis.ts';

/** One record, and what was expected of it before the unit's own evidence: one value for each draw. */
interface Innovation {
  readonly likelihood: Likelihood;
  readonly expected: Float64Array;
  readonly median: number;
}

type Kind = keyof SpreadScales;

/** Records that settle a scale; more cost time and tell little. */
const mostRecords = 1200;

/**
 * How much wider (above 1) or narrower the units of this fleet scatter than the catalog says, by state.
 * Method: the scale under which the records are likeliest, each over the draws of what its unit was expected to show,
 * moved toward or away from their median; log-normal prior about 1.
 * Source: innovation-based estimation of covariance, Dee, Mon. Weather Rev. 123 (1995).
 * @param analyses units worked through with what the others tell of their family
 */
export function learnSpread(analyses: readonly UnitAnalysis[], coefficients: Coefficients): SpreadScales {
  const found: Record<Kind, Innovation[]> = { oil: [], sludge: [], chain: [], phaser: [] };
  for (const analysis of analyses) collect(analysis, found);
  const priorSd = coefficients['evidence.spread_scale_log_sd'];
  const limit = coefficients['evidence.outlier_limit'];
  const scale = (kind: Kind): number => likeliestScale(evenPart(found[kind]), priorSd, limit);
  return { oil: scale('oil'), sludge: scale('sludge'), chain: scale('chain'), phaser: scale('phaser') };
}

/** An even part of many records, in strides that meet every kind of value. */
function evenPart(list: readonly Innovation[]): readonly Innovation[] {
  if (list.length <= mostRecords) return list;
  return list.filter((_, place) => ((place + 1) * Math.SQRT2) % 1 < mostRecords / list.length);
}

function collect(
  { evidence, prior, posterior, response, settings }: UnitAnalysis,
  found: Record<Kind, Innovation[]>,
): void {
  const measured = evidence.filter((piece) => piece.observed !== null && piece.teaches === 'looks');
  if (measured.length === 0) return;
  const size = prior.active.length;
  const factor = posterior.priorPrecision.slice();
  if (!factorInPlace(factor, size)) return;
  const normals = normalDraws(drawCount, latentCount);
  const states = emptyTrajectory(response.segments.length);
  const unknowns = new Float64Array(latentCount);
  const vector = new Float64Array(size);
  const expected = measured.map(() => new Float64Array(drawCount));
  for (let row = 0; row < drawCount; row++) {
    for (let i = 0; i < size; i++) vector[i] = normals[row * latentCount + prior.active[i]];
    backSolveInPlace(factor, size, vector);
    unknowns.set(prior.mean);
    for (let i = 0; i < size; i++) unknowns[prior.active[i]] += vector[i];
    trajectoryInto(response, unknowns, settings.screenCarry, states);
    for (let e = 0; e < measured.length; e++) expected[e][row] = measured[e].expect(states, unknowns);
  }
  measured.forEach(({ likelihood, state }, e) => {
    const sorted = expected[e].sort();
    found[state].push({
      likelihood,
      // every other of the sorted draws stands for all
      expected: sorted.filter((_, place) => place % 2 === 0),
      median: (sorted[drawCount / 2 - 1] + sorted[drawCount / 2]) / 2,
    });
  });
}

const term: LikelihoodTerm = { logLikelihood: 0, slope: 0, information: 0, weight: 1 };

function likeliestScale(innovations: readonly Innovation[], priorSd: number, outlierLimit: number): number {
  let best = 1;
  let top = Number.NEGATIVE_INFINITY;
  for (let step = -6; step <= 5; step++) {
    const logScale = step * 0.2;
    const scale = Math.exp(logScale);
    let sum = (-0.5 * logScale * logScale) / (priorSd * priorSd);
    for (const { likelihood, expected, median } of innovations) {
      let chance = 0;
      for (const value of expected) {
        likelihoodInto(likelihood, scaledFrom(median, value, scale), outlierLimit, term);
        chance += Math.exp(term.logLikelihood);
      }
      sum += Math.log(Math.max(1e-9, chance / expected.length));
    }
    if (sum > top) {
      top = sum;
      best = scale;
    }
  }
  return best;
}

/** A value moved from the median by a scale, on the scale of logarithms where both are above 0. */
function scaledFrom(median: number, value: number, scale: number): number {
  if (median > 1e-6 && value > 1e-6) return median * Math.pow(value / median, scale);
  return median + scale * (value - median);
}
