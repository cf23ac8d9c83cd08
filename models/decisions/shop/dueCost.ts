import type { Coefficients } from '../../schema/coefficient.ts';
import type { DueJob } from './dueJob.ts';

/** How the due date's 10 %, 50 % and 90 % points are weighed; adds up to 1. */
export interface DueWeights {
  readonly earliest: number;
  readonly median: number;
  readonly latest: number;
}

/** The weights from the catalog. Throws when one is negative or they don't add up to 1. */
export function dueWeights(coefficients: Coefficients): DueWeights {
  const earliest = coefficients['shop.due_weight_earliest'] ?? Number.NaN;
  const median = coefficients['shop.due_weight_median'] ?? Number.NaN;
  const latest = coefficients['shop.due_weight_latest'] ?? Number.NaN;
  const total = earliest + median + latest;
  if (!(Math.abs(total - 1) < 1e-9 && earliest >= 0 && median >= 0 && latest >= 0))
    throw new RangeError(`shop.due_weight_* must be 0 or above and add up to 1, got ${total}`);
  return { earliest, median, latest };
}

/**
 * Expected cost of doing a job on a day: E[late·(day − D)⁺ + early·(D − day)⁺] over the due date D, which is taken at
 * its 10 %, 50 % and 90 % points with the given weights; convex and piecewise linear in the day.
 * @param job cents per day late and early, due window in days since 1970-01-01
 * @param day days since 1970-01-01
 * @returns cents, whole, 0 or more. Example: 100 late, 10 early, due 10/20/30 with weights .3/.4/.3, day 20:
 * .3·100·10 + .3·10·10 = 330
 * Source: three-point discretisation by Swanson's rule (Hurst, Brown and Swanson, AAPG Bulletin 84(12), 2000), value
 * from memory; cost per day, common practice, no source.
 */
export function dueCostCents(
  job: Pick<DueJob, 'due' | 'latenessCentsPerDay' | 'earlinessCentsPerDay'>,
  day: number,
  weights: DueWeights,
): number {
  const { earliestDay, medianDay, latestDay } = job.due;
  let lateDays = 0;
  let earlyDays = 0;
  const add = (dueDay: number, weight: number) => {
    if (day > dueDay) lateDays += weight * (day - dueDay);
    else earlyDays += weight * (dueDay - day);
  };
  add(earliestDay, weights.earliest);
  add(medianDay, weights.median);
  add(latestDay, weights.latest);
  return Math.round(job.latenessCentsPerDay * lateDays + job.earlinessCentsPerDay * earlyDays);
}
