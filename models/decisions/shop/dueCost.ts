import type { DueJob } from './shopInputs.ts';
import type { ShopRules } from './shopRules.ts';

/**
 * Expected cost of doing a job on a day: E[late·(day − D)⁺ + early·(D − day)⁺] over the due date D, taken at its 10 %,
 * 50 % and 90 % points with the rules' weights; convex and piecewise linear in the day.
 * @param job cents a day late and early, 0 or more; due points in days since 1970-01-01
 * @param day days since 1970-01-01
 * @returns whole cents, 0 or more. Example: 100 late, 10 early, due 10/20/30 with weights .3/.4/.3, day 20:
 * .3·100·10 + .3·10·10 = 330
 * Source: three-point discretisation by Swanson's rule (Hurst, Brown and Swanson, AAPG Bulletin 84(12), 2000), value
 * from memory; a cost per day, common practice, no source.
 */
export function dueCostCents(
  job: Pick<
    DueJob,
    'earliestDay' | 'medianDay' | 'latestDay' | 'latenessCentsPerDay' | 'earlinessCentsPerDay'
  >,
  day: number,
  { dueWeights }: Pick<ShopRules, 'dueWeights'>,
): number {
  return lateCents(job, day, dueWeights) + earlyCents(job, day, dueWeights);
}

type DuePoints = Parameters<typeof dueCostCents>[0];

/** The part of {@link dueCostCents} for being late. */
export function lateCents(job: DuePoints, day: number, weights: ShopRules['dueWeights']): number {
  const days =
    weights[0] * Math.max(0, day - job.earliestDay) +
    weights[1] * Math.max(0, day - job.medianDay) +
    weights[2] * Math.max(0, day - job.latestDay);
  return Math.round(days * job.latenessCentsPerDay);
}

/** The part of {@link dueCostCents} for being early. */
export function earlyCents(job: DuePoints, day: number, weights: ShopRules['dueWeights']): number {
  const days =
    weights[0] * Math.max(0, job.earliestDay - day) +
    weights[1] * Math.max(0, job.medianDay - day) +
    weights[2] * Math.max(0, job.latestDay - day);
  return Math.round(days * job.earlinessCentsPerDay);
}
