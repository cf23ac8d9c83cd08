import { checkRows } from '../fit/lifetimeRows.ts';
import type { LifetimeRows } from '../fit/lifetimeRows.ts';

/** Mass on (from, to]; where inside the interval it lies the data can't tell. */
export interface TurnbullMass {
  readonly from: number;
  readonly to: number;
  readonly probability: number;
}

export interface TurnbullEstimate {
  readonly masses: readonly TurnbullMass[];
  readonly logLikelihood: number;
  readonly steps: number;
  /** false: the steps ran out before the optimality condition held to the tolerance */
  readonly converged: boolean;
}

/**
 * Turnbull's self-consistent estimate from interval-censored lifetimes (Turnbull, JRSS B 38, 1976): expectation steps on the
 * innermost intervals until no interval would gain from more mass. No delayed entry.
 * @param rows exact, right-, left- and interval-censored
 * @returns masses in order of time, adding up to 1
 * @throws RangeError for impossible rows or rows with delayed entry
 */
export function turnbull(rows: LifetimeRows, maximumSteps = 20_000, tolerance = 1e-7): TurnbullEstimate {
  checkRows(rows);
  if (rows.entry?.some((entry) => entry > 0))
    throw new RangeError('turnbull: rows must have no delayed entry');
  const support = innermostIntervals(rows);
  const count = support.length;
  const first = Int32Array.from(rows.low, (low, i) =>
    support.findIndex(({ from, to }) =>
      low === rows.high[i] ? to === low && from === low : from >= low && to > low,
    ),
  );
  const last = Int32Array.from(rows.high, (high) => support.findLastIndex(({ to }) => to <= high));
  const weight = (i: number) => (rows.weight ? rows.weight[i] : 1);
  let total = 0;
  for (let i = 0; i < rows.low.length; i++) total += weight(i);
  const mass = new Float64Array(count).fill(1 / count);
  const cumulative = new Float64Array(count + 1);
  const share = new Float64Array(count + 1);
  let logLikelihood = 0;
  for (let steps = 1; steps <= maximumSteps; steps++) {
    for (let j = 0; j < count; j++) cumulative[j + 1] = cumulative[j] + mass[j];
    share.fill(0);
    logLikelihood = 0;
    for (let i = 0; i < first.length; i++) {
      const inside = cumulative[last[i] + 1] - cumulative[first[i]];
      logLikelihood += weight(i) * Math.log(inside);
      share[first[i]] += weight(i) / inside;
      share[last[i] + 1] -= weight(i) / inside;
    }
    let gain = 0;
    let best = 0;
    for (let j = 0; j < count; j++) {
      gain += share[j];
      best = Math.max(best, gain / total);
      mass[j] *= gain / total;
    }
    if (best < 1 + tolerance)
      return { masses: withMass(support, mass), logLikelihood, steps, converged: true };
  }
  return { masses: withMass(support, mass), logLikelihood, steps: maximumSteps, converged: false };
}

function withMass(support: readonly { from: number; to: number }[], mass: Float64Array): TurnbullMass[] {
  return support.map(({ from, to }, j) => ({ from, to, probability: mass[j] }));
}

/** Intervals that start at a left end and stop at the next right end, with nothing between: only they can carry mass. */
function innermostIntervals(rows: LifetimeRows): { from: number; to: number }[] {
  const ends: { at: number; order: number }[] = [];
  rows.low.forEach((low, i) => {
    const exact = low === rows.high[i];
    // at one time: an exact failure starts, then intervals stop (they include it), then intervals start (they do not)
    ends.push({ at: low, order: exact ? 0 : 2 }, { at: rows.high[i], order: 1 });
  });
  ends.sort((a, b) => a.at - b.at || a.order - b.order);
  const found: { from: number; to: number }[] = [];
  for (let k = 1; k < ends.length; k++)
    if (ends[k].order === 1 && ends[k - 1].order !== 1) found.push({ from: ends[k - 1].at, to: ends[k].at });
  return found;
}
