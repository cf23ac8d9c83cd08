import { logNormalDensity, logNormalTail } from '../../numeric/normalTail.ts';

/**
 * Log likelihood of one row under a lognormal with log median `logScale` and shape = 1/sd of ln T, with its first and second
 * derivatives by log scale and log shape. Same layout of `out` as the Weibull row.
 */
export function lognormalRow(
  logLow: number,
  logHigh: number,
  logEntry: number,
  logScale: number,
  shape: number,
  out: Float64Array,
): void {
  out.fill(0);
  if (logEntry > -Infinity) addTail(out, shape * (logEntry - logScale), shape, -1);
  if (logHigh === logLow) {
    const z = shape * (logLow - logScale);
    out[0] += Math.log(shape) - logLow + logNormalDensity(z);
    out[2] += 1;
    addByDeviate(out, z, shape, -z, -1);
  } else if (logHigh === Infinity) {
    if (logLow > -Infinity) addTail(out, shape * (logLow - logScale), shape, 1);
  } else if (logLow === -Infinity) {
    // the lower tail is the upper tail mirrored
    const z = shape * (logHigh - logScale);
    const logBelow = logNormalTail(-z);
    const mills = Math.exp(logNormalDensity(z) - logBelow);
    out[0] += logBelow;
    addByDeviate(out, z, shape, mills, -mills * (mills + z));
  } else addBetween(out, shape * (logLow - logScale), shape * (logHigh - logScale), shape);
}

function addTail(out: Float64Array, z: number, shape: number, sign: number): void {
  const logAbove = logNormalTail(z);
  const mills = Math.exp(logNormalDensity(z) - logAbove);
  out[0] += sign * logAbove;
  addByDeviate(out, z, shape, -sign * mills, -sign * mills * (mills - z));
}

/** Chain rule from z = shape (ln t − logScale) to log scale and log shape. */
function addByDeviate(out: Float64Array, z: number, shape: number, first: number, second: number): void {
  out[1] -= shape * first;
  out[2] += z * first;
  out[3] += shape * shape * second;
  out[4] -= shape * (first + z * second);
  out[5] += z * first + z * z * second;
}

function addBetween(out: Float64Array, low: number, high: number, shape: number): void {
  // taken from the side where both tails are small, so that their difference keeps its digits
  const mirrored = low + high < 0;
  const outer = logNormalTail(mirrored ? -high : low);
  const inner = logNormalTail(mirrored ? -low : high);
  const logBetween = outer + Math.log(-Math.expm1(inner - outer));
  const atLow = Math.exp(logNormalDensity(low) - logBetween);
  const atHigh = Math.exp(logNormalDensity(high) - logBetween);
  out[0] += logBetween;
  addByDeviate(out, low, shape, -atLow, low * atLow - atLow * atLow);
  addByDeviate(out, high, shape, atHigh, -high * atHigh - atHigh * atHigh);
  const cross = atLow * atHigh;
  out[3] += 2 * shape * shape * cross;
  out[4] -= shape * (low + high) * cross;
  out[5] += 2 * low * high * cross;
}
