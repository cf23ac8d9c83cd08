import { coefficientValue } from '../decisions/coefficientValue.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { shopJobs, type ShopJob } from '../schema/shopPlan.ts';
import { rangeDeviations } from '../numeric/normal.ts';

/** A visit whose card was closed with its hours. */
export interface ClosedHours {
  /** its jobs with their hours before experience, h, above 0 */
  readonly jobs: readonly { readonly job: ShopJob; readonly hours: number }[];
  /** set-up of the visit, h, 0 or more */
  readonly setUpHours: number;
  readonly actualHours: number;
}

/** How long a kind of job takes in this shop against the catalog. */
export interface LearnedRatio {
  readonly job: ShopJob;
  /** visits that speak of it; one with several jobs counts in part for each */
  readonly visits: number;
  readonly ratio: number;
  /** 80 % range */
  readonly low: number;
  readonly high: number;
}

/**
 * Hours by job as a ratio to the catalog's, drawn towards 1 where few cards speak: each visit's log ratio of actual to
 * planned hours is normal about its job's with sd σ, the job's normal about 0 with sd τ; the posterior mean is
 * Σ wy / (Σ w + σ²/τ²), its sd σ/√(Σ w + σ²/τ²), w the job's share of the visit's planned hours.
 * @param coefficients `shop.hours_log_sd` σ, `shop.hours_prior_log_sd` τ, `shop.hours_most_factor` the largest factor that counts
 * @returns every job that a visit speaks of, in the order of jobs
 * @throws RangeError when planned hours of a visit are not above 0, or a coefficient is missing
 * Source: normal mean with known variance and normal prior (Gelman et al., Bayesian Data Analysis, 2.5).
 */
export function learnedHours(
  visits: readonly ClosedHours[],
  coefficients: Coefficients,
): readonly LearnedRatio[] {
  const sigma = coefficientValue(coefficients, 'shop.hours_log_sd');
  const pull = (sigma / coefficientValue(coefficients, 'shop.hours_prior_log_sd')) ** 2;
  const most = Math.log(coefficientValue(coefficients, 'shop.hours_most_factor'));
  const sums = new Map<ShopJob, { weight: number; sum: number }>();
  for (const { jobs, setUpHours, actualHours } of visits) {
    const own = jobs.reduce((sum, { hours }) => sum + hours, 0);
    const planned = own + setUpHours;
    if (!(own > 0)) throw new RangeError(`planned hours of a visit must be above 0, got ${own}`);
    if (!(actualHours > 0)) continue;
    const y = Math.max(-most, Math.min(most, Math.log(actualHours / planned)));
    for (const { job, hours } of jobs) {
      const { weight, sum } = sums.get(job) ?? { weight: 0, sum: 0 };
      const w = hours / own;
      sums.set(job, { weight: weight + w, sum: sum + w * y });
    }
  }
  return shopJobs.flatMap((job): LearnedRatio[] => {
    const found = sums.get(job);
    if (found === undefined) return [];
    const precision = found.weight + pull;
    const [mean, sd] = [found.sum / precision, sigma / Math.sqrt(precision)];
    return [
      {
        job,
        visits: found.weight,
        ratio: Math.exp(mean),
        low: Math.exp(mean - rangeDeviations * sd),
        high: Math.exp(mean + rangeDeviations * sd),
      },
    ];
  });
}
