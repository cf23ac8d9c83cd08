import { FitRefused } from '../fit/fitRefused.ts';
import { cholesky, inverseOfFactor } from '../../numeric/cholesky.ts';
import { minimise } from '../../numeric/minimise.ts';
import type { Scored } from './binaryScores.ts';

export interface CalibrationSlope {
  /** 1 is right; below 1 the predictions are too extreme, above 1 too timid */
  readonly slope: number;
  readonly slopeSe: number;
  readonly intercept: number;
}

/**
 * Logistic regression of what happened on the logit of the predicted chance (Cox, Biometrika 45, 1958), each by its weight (1 when left out).
 * @throws FitRefused when there is only one outcome, the chances are all alike, or they separate the outcomes
 */
export function calibrationSlope(
  scored: readonly (Scored & { readonly weight?: number })[],
): CalibrationSlope {
  const weight = Float64Array.from(scored, (one) => one.weight ?? 1);
  const total = weight.reduce((a, b) => a + b, 0);
  const logit = Float64Array.from(scored, ({ probability }) => {
    const kept = Math.min(Math.max(probability, 1e-12), 1 - 1e-12);
    return Math.log(kept / (1 - kept));
  });
  const failures = scored.reduce((sum, { outcome }, i) => sum + weight[i] * outcome, 0);
  if (!(failures > 0 && failures < total))
    throw new FitRefused('no_failures', 'calibrationSlope: all outcomes are the same');
  const mean = logit.reduce((sum, value, i) => sum + weight[i] * value, 0) / total;
  const spread = Math.sqrt(logit.reduce((sum, value, i) => sum + weight[i] * (value - mean) ** 2, 0) / total);
  if (!(spread > 1e-9)) throw new FitRefused('not_identified', 'calibrationSlope: all chances are alike');
  const rate = failures / total;
  const found = minimise(
    (at, gradient, hessian) => {
      gradient.fill(0);
      hessian.fill(0);
      let value = 0;
      for (let i = 0; i < logit.length; i++) {
        const x = (logit[i] - mean) / spread;
        const line = at[0] + at[1] * x;
        const chance = 1 / (1 + Math.exp(-line));
        value +=
          weight[i] * (Math.max(line, 0) + Math.log1p(Math.exp(-Math.abs(line))) - scored[i].outcome * line);
        const miss = weight[i] * (chance - scored[i].outcome);
        const bend = weight[i] * chance * (1 - chance);
        gradient[0] += miss;
        gradient[1] += miss * x;
        hessian[0] += bend;
        hessian[2] += bend * x;
        hessian[3] += bend * x * x;
      }
      return value;
    },
    [Math.log(rate / (1 - rate)), spread],
    { longestStep: 4 },
  );
  const factor = cholesky(found.hessian, 2);
  if (!factor || !found.converged || Math.abs(found.at[1]) > 30)
    throw new FitRefused('separation', 'calibrationSlope: the chances separate failed from running units');
  const slope = found.at[1] / spread;
  return {
    slope,
    slopeSe: Math.sqrt(inverseOfFactor(factor, 2)[3]) / spread,
    intercept: found.at[0] - slope * mean,
  };
}
