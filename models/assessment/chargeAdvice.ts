import type { OilCharge } from '../oil/charge.ts';
import { recommendedInterval } from '../oil/recommendedInterval.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { bookOf } from './assessOil.ts';
import type { UnitView } from './unitView.ts';

/**
 * The interval that the model would have set for a charge at the charge's own duty, with the rates known today.
 * @returns null for a charge without a day of use; `usedShare` = days in use ÷ days of the interval, above 1 = past
 */
export function chargeAdvice(view: UnitView, charge: OilCharge, coefficients: Coefficients) {
  const { exposure } = charge;
  if (!(exposure.days > 0)) return null;
  const { fill, engine } = view.fillOf(charge);
  const advice = recommendedInterval(
    {
      coming: [exposure],
      engine,
      fill,
      rates: view.states.rates,
      book: bookOf(view.history.engine),
      severe: view.timeline.duty.severe,
    },
    coefficients,
  );
  return { ...advice, usedShare: exposure.days / Math.max(1, advice.interval.days) };
}
