import { coefficientValue } from '../decisions/coefficientValue.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { Engine } from '../schema/engine.ts';
import type { ShopJob } from '../schema/shopPlan.ts';

/**
 * Bay hours of a job before the shop's own experience, without the set-up of the visit, h, above 0: an oil service by the
 * settings, a renewed timing drive by the engine family, all else by `shop.item_hours.*`.
 * @param oilServiceHours of the settings, h
 * @throws RangeError when a coefficient is missing
 * @example a timing set of a family with 11 planned hours → 11. Source: common practice, no source.
 */
export function jobHours(
  job: ShopJob,
  engine: Pick<Engine, 'plannedHours'> | null,
  oilServiceHours: number,
  coefficients: Coefficients,
): number {
  if (job === 'oil_change') return oilServiceHours;
  if (job === 'timing_set')
    return Math.max(0.5, engine?.plannedHours ?? coefficientValue(coefficients, 'money.planned_hours'));
  return coefficientValue(coefficients, `shop.item_hours.${job}`);
}
