import { recommendedInterval } from '../oil/recommendedInterval.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { bookOf } from './assessOil.ts';
import { fillNow, type UnitView } from './assessUnit.ts';
import { dutyExposure, withIdleShare } from './dutyExposure.ts';

const monthDays = 365.25 / 12;

/**
 * What would move the unit's interval most, each as a sentence with its number: half the idling, trips twice as long,
 * no towing. Only changes that gain at least 3 % are named.
 */
export function whatWouldChange(view: UnitView, coefficients: Coefficients): string[] {
  const { timeline, states, history } = view;
  const filled = fillNow(timeline, view.fillOf);
  if (filled === null) return [];
  const { duty, asOfDay } = timeline;
  const intervalOf = (changed: typeof duty): number =>
    recommendedInterval(
      {
        coming: Array.from({ length: 24 }, (_, month) =>
          dutyExposure(changed, asOfDay + month * monthDays, monthDays),
        ),
        ...filled,
        rates: states.rates,
        book: bookOf(history.engine),
        severe: changed.severe,
      },
      coefficients,
    ).interval.distanceKm;
  const base = intervalOf(duty);
  if (!(base > 0)) return [];
  const gains: { words: string; gainKm: number }[] = [];
  const look = (words: string, changed: typeof duty): void => {
    gains.push({ words, gainKm: intervalOf(changed) - base });
  };
  if (duty.idleShare > 0.08) look('Half the idling', withIdleShare(duty, duty.idleShare / 2));
  if (duty.tripKm < 15)
    look('Trips twice as long', {
      ...duty,
      tripKm: 2 * duty.tripKm,
      soakedStartsPerDay: duty.soakedStartsPerDay / 2,
    });
  if (duty.towingShare > 0.1) look('No towing', { ...duty, towingShare: 0 });
  return gains
    .filter((gain) => gain.gainKm > 0.03 * base)
    .sort((a, b) => b.gainKm - a.gainKm)
    .map(
      ({ words, gainKm }) =>
        `${words} would make the interval about ${Number(gainKm.toPrecision(2))} km longer, as long as the book allows it.`,
    );
}
