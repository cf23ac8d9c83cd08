/**
 * Where a rising function passes 0: the upper end is doubled until it does, then regula falsi (Illinois).
 * @param f rising from f(0)
 * @param guess first upper end, above 0
 * @param most a crossing beyond it is not looked for
 * @returns 0 when f(0) is 0 or above already, Infinity when f stays below 0 up to `most` or 10⁶; relative tolerance 10⁻⁹
 * Source: Illinois variant of regula falsi, common practice.
 */
export function risingCrossing(f: (x: number) => number, guess: number, most = Infinity): number {
  let low = 0;
  let fLow = f(0);
  if (fLow >= 0) return 0;
  const end = Math.min(1e6, most);
  let high = Math.min(end, Math.max(1e-6, guess));
  let fHigh = f(high);
  while (fHigh < 0) {
    if (high >= end) return Infinity;
    low = high;
    fLow = fHigh;
    high = Math.min(end, 2 * high);
    fHigh = f(high);
  }
  let side = 0;
  for (let i = 0; i < 100 && high - low > 1e-9 * high; i++) {
    let x = (low * fHigh - high * fLow) / (fHigh - fLow);
    if (!(x > low && x < high)) x = (low + high) / 2;
    const fx = f(x);
    if (fx === 0) return x;
    if (fx < 0) {
      low = x;
      fLow = fx;
      if (side === -1) fHigh /= 2;
      side = -1;
    } else {
      high = x;
      fHigh = fx;
      if (side === 1) fLow /= 2;
      side = 1;
    }
  }
  return (low + high) / 2;
}
