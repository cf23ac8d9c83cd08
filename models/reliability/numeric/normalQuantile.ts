import { logNormalDensity, logNormalTail } from './normalTail.ts';

/**
 * Standard normal quantile Φ⁻¹(p): start of Abramowitz & Stegun 26.2.23, then Newton steps on the logarithm of the tail,
 * so that it holds to about 1e-13 far into either tail.
 * @param probability strictly between 0 and 1
 * @returns standard normal deviate; normalQuantile(0.9) → 1.2815515655446004
 * @throws RangeError outside (0, 1)
 */
export function normalQuantile(probability: number): number {
  if (!(probability > 0 && probability < 1))
    throw new RangeError(`probability must lie between 0 and 1, got ${probability}`);
  if (probability > 0.5) return -normalQuantile(1 - probability);
  const target = Math.log(probability);
  const root = Math.sqrt(-2 * target);
  const above = 2.515517 + root * (0.802853 + root * 0.010328);
  const below = 1 + root * (1.432788 + root * (0.189269 + root * 0.001308));
  let deviate = root - above / below;
  for (let step = 0; step < 8; step++) {
    const logTail = logNormalTail(deviate);
    const change = (logTail - target) * Math.exp(logTail - logNormalDensity(deviate));
    deviate += change;
    if (Math.abs(change) < 1e-14 * Math.max(1, Math.abs(deviate))) break;
  }
  return -deviate;
}
