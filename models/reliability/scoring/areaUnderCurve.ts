import { normalQuantile } from '../../numeric/normal.ts';

export interface AreaUnderCurve {
  /** chance that a failed unit had the higher score than one that did not fail, ties half */
  readonly auc: number;
  readonly se: number;
  /** limits on the logit scale, inside 0..1 */
  readonly low: number;
  readonly high: number;
}

/**
 * Area under the receiver operating characteristic with the standard error of DeLong, DeLong & Clarke-Pearson (Biometrics 44,
 * 1988), from midranks.
 * @param score higher means more likely to fail @param outcome 1 failed, 0 did not
 * @param coverage of the limits, 0..1
 * @returns null when there are not at least two of each outcome: the area or its error is then not defined
 */
export function areaUnderCurve(
  score: ArrayLike<number>,
  outcome: ArrayLike<number>,
  coverage = 0.95,
): AreaUnderCurve | null {
  const all = Array.from(score);
  const failed = all.filter((_, i) => outcome[i] === 1);
  const running = all.filter((_, i) => outcome[i] !== 1);
  if (failed.length < 2 || running.length < 2) return null;
  const placedFailed = placements(failed, running);
  const placedRunning = placements(running, failed).map((value) => 1 - value);
  const auc = meanOf(placedFailed);
  const se = Math.sqrt(varianceOf(placedFailed) / failed.length + varianceOf(placedRunning) / running.length);
  const reach = auc > 0 && auc < 1 ? (normalQuantile(0.5 + coverage / 2) * se) / (auc * (1 - auc)) : 0;
  const move = (by: number) => (auc > 0 && auc < 1 ? 1 / (1 + ((1 - auc) / auc) * Math.exp(-by)) : auc);
  return { auc, se, low: move(-reach), high: move(reach) };
}

/** For each value the share of the others below it, ties half. */
function placements(values: readonly number[], others: readonly number[]): number[] {
  const sorted = [...others].sort((a, b) => a - b);
  const below = (value: number, orEqual: boolean): number => {
    let low = 0;
    let high = sorted.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (orEqual ? sorted[middle] <= value : sorted[middle] < value) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return values.map((value) => (below(value, false) + below(value, true)) / 2 / sorted.length);
}

function meanOf(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0) / values.length;
}

function varianceOf(values: readonly number[]): number {
  const mean = meanOf(values);
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
}
