import type { Coefficients } from '../../schema/coefficient.ts';
import { searchRules, type SearchRules } from './planEffort.ts';

/** The plan's own rules; each stands in the catalog. */
export interface ShopRules {
  /** length of a cell of the day sheet, min */
  readonly cellMinutes: number;
  /** bringing in, lifting, driving out: once a visit, h */
  readonly setUpHours: number;
  /** desk, yard and labour of the set-up, cents */
  readonly setUpCents: number;
  /** downtime is counted in steps of this share of a day */
  readonly downtimeStepShare: number;
  /** jobs share a visit when their due ranges, lengthened by this on both ends, meet, d */
  readonly bundleReachDays: number;
  readonly mostJobsPerVisit: number;
  /** longest stay in one bay, working days */
  readonly mostDays: number;
  /** a visit lies at most this long before its first due range begins and after its last one ends, d */
  readonly daysAhead: number;
  readonly daysBehind: number;
  /** price of putting a visit elsewhere than an earlier plan had it, cents */
  readonly moveCents: number;
  /** how the due date's 10 %, 50 % and 90 % points are weighed; add up to 1 */
  readonly dueWeights: readonly [number, number, number];
  readonly search: SearchRules;
}

/**
 * Takes the rules from the catalog's values.
 * @param coefficients `shop.*` of the catalog
 * @throws RangeError when a value is missing or out of range, or the due weights don't add up to 1
 */
export function shopRules(coefficients: Coefficients): ShopRules {
  const value = (id: string, least: number, most: number): number => {
    const found = coefficients[id];
    if (found === undefined || !(found >= least && found <= most))
      throw new RangeError(`${id} must lie within ${least} and ${most}, got ${found}`);
    return found;
  };
  const dueWeights = [
    value('shop.due_weight_earliest', 0, 1),
    value('shop.due_weight_median', 0, 1),
    value('shop.due_weight_latest', 0, 1),
  ] as const;
  const total = dueWeights[0] + dueWeights[1] + dueWeights[2];
  if (Math.abs(total - 1) > 1e-9) throw new RangeError(`shop.due_weight_* must add up to 1, got ${total}`);
  return {
    cellMinutes: Math.round(value('shop.cell_minutes', 5, 60)),
    setUpHours: value('shop.set_up_hours', 0, 24),
    setUpCents: Math.round(value('shop.set_up_cents', 0, 1e8)),
    downtimeStepShare: value('shop.downtime_step_share', 0.01, 1),
    bundleReachDays: Math.round(value('shop.bundle_reach_days', 0, 365)),
    mostJobsPerVisit: Math.round(value('shop.most_jobs_per_visit', 1, 8)),
    mostDays: Math.round(value('shop.most_days', 1, 60)),
    daysAhead: Math.round(value('shop.days_ahead', 0, 400)),
    daysBehind: Math.round(value('shop.days_behind', 1, 400)),
    moveCents: Math.round(value('shop.move_cents', 0, 1e8)),
    dueWeights,
    search: searchRules(coefficients),
  };
}
