import type { SecondOrderFunction } from '../../numeric/minimise.ts';
import { linearScore, sweepFailureTimes } from './riskSweep.ts';
import type { SortedRows } from './riskSweep.ts';

/** Negative log partial likelihood with gradient and Hessian; d tied failures leave the risk set one d-th at a time (Efron). */
export function partialLikelihood(rows: SortedRows, count: number): SecondOrderFunction {
  return (at, gradient, hessian) => {
    gradient.fill(0);
    hessian.fill(0);
    let value = 0;
    const mean = new Float64Array(count);
    sweepFailureTimes(rows, count, at, (atRisk, failing, from, to) => {
      let deaths = 0;
      for (let i = from; i < to; i++) {
        if (!rows.failed[i]) continue;
        deaths++;
        value -= linearScore(rows.covariates, i, count, at);
        for (let j = 0; j < count; j++) gradient[j] -= rows.covariates[i * count + j];
      }
      for (let k = 0; k < deaths; k++) {
        const gone = k / deaths;
        const total = atRisk[0] - gone * failing[0];
        value += Math.log(total);
        for (let j = 0; j < count; j++) {
          mean[j] = (atRisk[1 + j] - gone * failing[1 + j]) / total;
          gradient[j] += mean[j];
          for (let l = 0; l <= j; l++) {
            const cell = 1 + count + j * count + l;
            hessian[j * count + l] += (atRisk[cell] - gone * failing[cell]) / total - mean[j] * mean[l];
          }
        }
      }
    });
    return Number.isFinite(value) ? value : Infinity;
  };
}

/** Cumulative baseline hazard just after each failure time, ascending, by Efron's increments. */
export function cumulativeBaseline(
  rows: SortedRows,
  count: number,
  at: Float64Array,
): { time: number; cumulative: number }[] {
  const steps: { time: number; cumulative: number }[] = [];
  sweepFailureTimes(rows, count, at, (atRisk, failing, from, to) => {
    let deaths = 0;
    for (let i = from; i < to; i++) deaths += rows.failed[i];
    let step = 0;
    for (let k = 0; k < deaths; k++) step += 1 / (atRisk[0] - (k / deaths) * failing[0]);
    steps.push({ time: rows.time[from], cumulative: step });
  });
  steps.reverse();
  for (let k = 1; k < steps.length; k++) steps[k].cumulative += steps[k - 1].cumulative;
  return steps;
}
