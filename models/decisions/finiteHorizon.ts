import { checkCosts } from './ageReplacement.ts';
import type { Lifetime } from './lifetime.ts';
import { integrate } from '../numeric/quadrature.ts';

/** Running on against renewing now, for a unit that is disposed of at the end. */
export interface RunOrRenew {
  /** chance that the part in place fails before the end, 0..1 */
  readonly chanceFails: number;
  /** present value of running on, cents */
  readonly runCents: number;
  /** present value of renewing now, cents */
  readonly renewCents: number;
  /** running − renewing; above 0: renew */
  readonly savingCents: number;
  readonly notes: readonly string[];
}

/**
 * Renew now or run on until disposal, nothing of value beyond it: run = failure·∫₀ᴴ e^(−rx) f(x|age) dx,
 * renew = planned + failure·∫₀ᴴ e^(−rx) f(x) dx. A second failure before the end is neglected.
 * @param age of the part in place, 0 or more, unit of the life
 * @param untilDisposal use still to come, same unit; 0 or less: disposed of already, running costs nothing
 * @param plannedCents above 0
 * @param failureCents 0 or more
 * @param ratePerUnit continuous interest per unit of use; below 0 is taken as 0 with a note
 * @returns Weibull 3, 260 (thousand miles), age 180, 60 to run, 1200 and 9000, rate .1/60 → saving 1824.13
 * @throws RangeError when age is negative or costs are out of range
 * Source: common practice (present value of a single failure), no source.
 */
export function runOrRenew(
  life: Lifetime,
  age: number,
  untilDisposal: number,
  plannedCents: number,
  failureCents: number,
  ratePerUnit: number,
): RunOrRenew {
  if (!(age >= 0 && Number.isFinite(age))) throw new RangeError(`age must be 0 or above, got ${age}`);
  checkCosts(plannedCents, failureCents);
  const notes: string[] = [];
  if (failureCents < plannedCents) notes.push('a planned renewal costs more than a failure');
  const rate = Math.max(0, ratePerUnit);
  if (ratePerUnit < 0) notes.push(`a discount rate below 0 (${ratePerUnit}) is taken as 0`);
  if (!(untilDisposal > 0)) {
    notes.push('the disposal date has passed: nothing is left to gain');
    return { chanceFails: 0, runCents: 0, renewCents: plannedCents, savingCents: -plannedCents, notes };
  }
  const alive = life.survival(age);
  const lasts = (from: number, use: number) =>
    from === 0 ? life.survival(use) : alive > 0 ? life.survival(from + use) / alive : 0;
  // ∫e^(−rx)f by parts, so that no density is needed
  const present = (from: number) =>
    1 -
    Math.exp(-rate * untilDisposal) * lasts(from, untilDisposal) -
    rate * integrate((use) => Math.exp(-rate * use) * lasts(from, use), 0, untilDisposal, 16);
  const runCents = failureCents * present(age);
  const renewCents = plannedCents + failureCents * present(0);
  return {
    chanceFails: 1 - lasts(age, untilDisposal),
    runCents,
    renewCents,
    savingCents: runCents - renewCents,
    notes,
  };
}
