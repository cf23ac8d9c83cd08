import type { CoxRows } from './coxRows.ts';

/** Rows in descending order of time, and their positions in descending order of entry, ready for one sweep. */
export interface SortedRows {
  readonly time: Float64Array;
  readonly entry: Float64Array;
  readonly failed: Uint8Array;
  readonly covariates: Float64Array;
  readonly byEntry: Int32Array;
  readonly events: number;
}

/** Sums of risk, risk × x and risk × x xᵀ (lower triangle), in that order: 1 + p + p² values. */
export type RiskSums = Float64Array;

export function sortForSweep(rows: CoxRows, covariates: Float64Array): SortedRows {
  const count = rows.covariateCount;
  const order = Array.from({ length: rows.time.length }, (_, i) => i).sort(
    (a, b) => rows.time[b] - rows.time[a],
  );
  const time = Float64Array.from(order, (i) => rows.time[i]);
  const entry = Float64Array.from(order, (i) => (rows.entry ? rows.entry[i] : -Infinity));
  const failed = Uint8Array.from(order, (i) => (rows.failed[i] ? 1 : 0));
  time.forEach((value, i) => {
    if (!(value < Infinity && entry[i] < value))
      throw new RangeError(`coxRegression: time must be finite and above entry ${entry[i]}, got ${value}`);
  });
  const sorted = new Float64Array(covariates.length);
  order.forEach((from, to) => sorted.set(covariates.subarray(from * count, (from + 1) * count), to * count));
  return {
    time,
    entry,
    failed,
    covariates: sorted,
    byEntry: Int32Array.from(entry.keys()).sort((a, b) => entry[b] - entry[a]),
    events: failed.reduce((sum, one) => sum + one, 0),
  };
}

/**
 * Visits every failure time from the last to the first with the sums over all at risk, the sums over those failing then, and
 * the positions [from, to) of the rows that end then.
 */
export function sweepFailureTimes(
  rows: SortedRows,
  count: number,
  at: Float64Array,
  visit: (atRisk: RiskSums, failing: RiskSums, from: number, to: number) => void,
): void {
  const { time, entry, failed, covariates, byEntry } = rows;
  const size = 1 + count + count * count;
  const atRisk = new Float64Array(size);
  const failing = new Float64Array(size);
  const risk = (i: number) => Math.exp(linearScore(covariates, i, count, at));
  let entering = 0;
  for (let from = 0; from < time.length;) {
    const now = time[from];
    let to = from;
    failing.fill(0);
    let deaths = 0;
    for (; to < time.length && time[to] === now; to++) {
      addTo(atRisk, risk(to), covariates, to, count);
      if (failed[to]) {
        deaths++;
        addTo(failing, risk(to), covariates, to, count);
      }
    }
    // whoever entered only now or later was not at risk
    for (; entering < byEntry.length && entry[byEntry[entering]] >= now; entering++)
      addTo(atRisk, -risk(byEntry[entering]), covariates, byEntry[entering], count);
    if (deaths > 0) visit(atRisk, failing, from, to);
    from = to;
  }
}

export function linearScore(covariates: Float64Array, row: number, count: number, at: Float64Array): number {
  let score = 0;
  for (let j = 0; j < count; j++) score += at[j] * covariates[row * count + j];
  return score;
}

function addTo(sums: RiskSums, risk: number, x: Float64Array, row: number, count: number): void {
  sums[0] += risk;
  for (let j = 0; j < count; j++) {
    const part = risk * x[row * count + j];
    sums[1 + j] += part;
    for (let k = 0; k <= j; k++) sums[1 + count + j * count + k] += part * x[row * count + k];
  }
}
