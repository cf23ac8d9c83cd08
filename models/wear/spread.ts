import type { Coefficients } from '../schema/coefficient.ts';
import { backSolveInPlace, factorInPlace } from '../numeric/cholesky.ts';
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
  readonly median: number;
  /** distance of each draw from the median: of logarithms where `byLogs`, else of the values */
  readonly moves: Float64Array;
  readonly byLogs: boolean;
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
  measured.forEach(({ likelihood, state }, e) =>
    found[state].push({ likelihood, ...movesOf(expected[e].sort()) }),
  );
}

/** Draws about their median, on the scale of logarithms where all are above 0; every other of them stands for all. */
function movesOf(sorted: Float64Array): Omit<Innovation, 'likelihood'> {
  const median = (sorted[drawCount / 2 - 1] + sorted[drawCount / 2]) / 2;
  const byLogs = sorted[0] > 1e-6;
  const moves = new Float64Array(drawCount / 2);
  for (let i = 0; i < moves.length; i++)
    moves[i] = byLogs ? Math.log(sorted[2 * i] / median) : sorted[2 * i] - median;
  return { median, moves, byLogs };
}

const stepLog = 0.2;
const leastStep = -6;
const mostStep = 5;
const term: LikelihoodTerm = { logLikelihood: 0, slope: 0, information: 0, weight: 1 };

/** The likeliest of even steps in the logarithm of the scale; taken to have one top, at which the climb ends. */
function likeliestScale(innovations: readonly Innovation[], priorSd: number, outlierLimit: number): number {
  const at = (step: number): number => {
    const logScale = step * stepLog;
    return (
      (-0.5 * logScale * logScale) / (priorSd * priorSd) +
      logChance(innovations, Math.exp(logScale), outlierLimit)
    );
  };
  let best = 0;
  let top = at(0);
  for (const direction of [1, -1]) {
    for (let step = best + direction; step >= leastStep && step <= mostStep; step += direction) {
      const value = at(step);
      if (value <= top) break;
      top = value;
      best = step;
    }
    if (best !== 0) break;
  }
  return Math.exp(best * stepLog);
}

function logChance(innovations: readonly Innovation[], scale: number, outlierLimit: number): number {
  let sum = 0;
  for (const { likelihood, median, moves, byLogs } of innovations) {
    let chance = 0;
    for (const move of moves) {
      const value = byLogs ? median * Math.exp(scale * move) : median + scale * move;
      likelihoodInto(likelihood, value, outlierLimit, term);
      chance += Math.exp(term.logLikelihood);
    }
    sum += Math.log(Math.max(1e-9, chance / moves.length));
  }
  return sum;
}
