import type { Coefficients } from '../../schema/coefficient.ts';
import { dueWeights, type DueWeights } from './dueCost.ts';

/** The plan's own rules; each stands in the catalog. */
export interface ShopRules {
  /** length of a cell of the day sheet, min */
  readonly cellMinutes: number;
  /** bringing in, lifting, taking off covers, driving out: once a visit, h */
  readonly setUpHours: number;
  /** desk and yard work of a visit, cents */
  readonly setUpCents: number;
  /** downtime is counted in steps of this share of a day */
  readonly downtimeStepShare: number;
  /** jobs share a visit when their due windows, lengthened by this on both ends, meet, d */
  readonly bundleReachDays: number;
  readonly mostJobsPerVisit: number;
  /** for each job that a new plan puts on another day than the old one, cents */
  readonly moveCents: number;
  readonly dueWeights: DueWeights;
}

/** Takes the rules from the catalog's values. Throws on a value that is missing or out of range. */
export function shopRules(coefficients: Coefficients): ShopRules {
  const value = (id: string, least: number, most: number): number => {
    const found = coefficients[id];
    if (found === undefined || !(found >= least && found <= most))
      throw new RangeError(`${id} must lie within ${least} and ${most}, got ${found}`);
    return found;
  };
  return {
    cellMinutes: Math.round(value('shop.cell_minutes', 5, 60)),
    setUpHours: value('shop.set_up_hours', 0, 24),
    setUpCents: Math.round(value('shop.set_up_cents', 0, 1e8)),
    downtimeStepShare: value('shop.downtime_step_share', 0.01, 1),
    bundleReachDays: Math.round(value('shop.bundle_reach_days', 0, 365)),
    mostJobsPerVisit: Math.round(value('shop.most_jobs_per_visit', 1, 8)),
    moveCents: Math.round(value('shop.move_cents', 0, 1e8)),
    dueWeights: dueWeights(coefficients),
  };
}
