import { checkCosts } from './ageReplacement.ts';
import type { Lifetime } from './lifetime.ts';

/**
 * Expected renewals up to each point of an even grid, by the midpoint form of the renewal equation
 * M(t) = F(t) + ∫₀ᵗ F(t − x) dM(x).
 * @param life the life of one part
 * @param upTo end of the grid, above 0, in the unit of the life
 * @param steps parts of the grid, 1 or more; the error falls with its square
 * @returns steps + 1 values from 0; Weibull shape 2, scale 1 at 1 → 0.753691
 * @throws RangeError when upTo is not above 0 or steps is no whole number from 1
 * Source: Xie, Communications in Statistics – Simulation and Computation 18 (1989) 281–293.
 */
export function expectedRenewals(life: Lifetime, upTo: number, steps: number): Float64Array {
  if (!(upTo > 0 && Number.isFinite(upTo))) throw new RangeError(`upTo must be above 0, got ${upTo}`);
  if (!(Number.isInteger(steps) && steps >= 1))
    throw new RangeError(`steps must be a whole number from 1, got ${steps}`);
  const width = upTo / steps;
  const halfway = new Float64Array(steps);
  for (let i = 0; i < steps; i++) halfway[i] = 1 - life.survival((i + 0.5) * width);
  const renewals = new Float64Array(steps + 1);
  const first = halfway[0]!;
  for (let i = 1; i <= steps; i++) {
    let sum = 1 - life.survival(i * width) - renewals[i - 1]! * first;
    for (let j = 1; j < i; j++) sum += (renewals[j]! - renewals[j - 1]!) * halfway[i - j]!;
    renewals[i] = sum / (1 - first);
  }
  return renewals;
}

/** Renewing everything at fixed times whatever its age, failed parts at once. */
export interface BlockPolicy {
  /** best time between renewals, unit of the life; null = run to failure */
  readonly every: number | null;
  /** long-run cents per unit of age */
  readonly centsPerUnit: number;
  /** against running to failure, 0..1 */
  readonly costShare: number;
  readonly notes: readonly string[];
}

/**
 * Best time for block renewal: least (planned + failure·M(T))/T on a grid up to three mean lives, refined by a parabola.
 * @param plannedCents above 0
 * @param failureCents 0 or more
 * @param steps of the grid
 * @returns Weibull 2.5, 1000 with costs 1 and 5 → every 478.4 at 0.00364352 a unit
 * @throws RangeError for costs out of range
 * Source: Barlow & Proschan, Mathematical Theory of Reliability (1965), chapter 4.
 */
export function bestBlockInterval(
  life: Lifetime,
  plannedCents: number,
  failureCents: number,
  steps = 2000,
): BlockPolicy {
  checkCosts(plannedCents, failureCents);
  const upTo = 3 * life.mean;
  const renewals = expectedRenewals(life, upTo, steps);
  const width = upTo / steps;
  const rate = (i: number) => (plannedCents + failureCents * renewals[i]!) / (i * width);
  let best = 1;
  for (let i = 2; i <= steps; i++) if (rate(i) < rate(best)) best = i;
  const whole = failureCents / life.mean;
  if (best === steps || rate(best) >= whole)
    return {
      every: null,
      centsPerUnit: whole,
      costShare: 1,
      notes: ['no fixed time is cheaper than running to failure'],
    };
  let every = best * width;
  let centsPerUnit = rate(best);
  if (best > 1) {
    const [before, here, after] = [rate(best - 1), rate(best), rate(best + 1)];
    const bend = before - 2 * here + after;
    if (bend > 0) {
      const shift = (before - after) / (2 * bend);
      every += shift * width;
      centsPerUnit = here - (bend * shift * shift) / 2;
    }
  }
  return { every, centsPerUnit, costShare: whole > 0 ? centsPerUnit / whole : 1, notes: [] };
}
