import { changesThatBuy } from '../oil/changesThatBuy.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { fillNow } from './assessUnit.ts';
import type { UnitView } from './unitView.ts';
import { comingMonths } from './dutyExposure.ts';

const shown = 4;

/** What would lengthen the unit's interval most, each change alone, as sentences with their gain; none where rules hold. */
export function whatWouldChange(view: UnitView, coefficients: Coefficients): string[] {
  const { timeline, states } = view;
  const filled = fillNow(timeline, view.fillOf);
  if (filled === null) return [];
  return changesThatBuy(
    {
      coming: comingMonths(timeline.duty, timeline.asOfDay),
      ...filled,
      rates: states.rates,
      book: view.book,
      severe: timeline.duty.severe,
    },
    coefficients,
  )
    .filter((change) => change.gainDays >= 2)
    .slice(0, shown)
    .map((change) => change.words);
}
