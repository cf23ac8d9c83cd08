import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import { partOfExposure } from '../oil/condition.ts';
import type { UnrecordedLife } from './segments.ts';
import { usualCharge } from './unrecordedLife.ts';

/** A timeline as far as records tell it, and the life before them. */
export interface ToldLife {
  readonly timeline: UnitTimeline;
  readonly unrecorded: UnrecordedLife;
}

/**
 * Cuts off what lies before a unit's records: years without a line are years in which nobody wrote, not one oil charge.
 * That life counts as like charges of the unit's usual length, with its metered exposure.
 * @param recordsFromDay day on which the records begin
 * @returns null when the records cover the life from its start but for one change, or begin after its first charge
 */
export function toldLifeOf(timeline: UnitTimeline, recordsFromDay: number): ToldLife | null {
  const first = timeline.charges[0];
  if (first === undefined || recordsFromDay <= first.startDay || recordsFromDay > first.endDay) return null;
  const before = timeline.exposureBetween(first.startDay, recordsFromDay);
  const usual = usualCharge(timeline, 1);
  const share = first.exposure.distanceKm > 0 ? before.distanceKm / first.exposure.distanceKm : 1;
  const days = recordsFromDay - first.startDay;
  const count = Math.max(before.distanceKm / usual.distanceKm, days / usual.days);
  const charges = Math.round(count);
  // up to one change is no gap: the first record may be the sample or the drain of that very charge
  if (charges < 2) return null;
  return {
    timeline: {
      ...timeline,
      charges: [rest(first, recordsFromDay, share, timeline), ...timeline.charges.slice(1)],
    },
    unrecorded: { charge: first, charges, exposure: partOfExposure(before, 1 / charges) },
  };
}

/** The first charge from the day on which records begin; of its drains the part that falls there. */
function rest(first: OilCharge, fromDay: number, shareBefore: number, timeline: UnitTimeline): OilCharge {
  const hiddenDrains = Math.floor(first.hiddenDrains * Math.max(0, 1 - shareBefore));
  return {
    ...first,
    startDay: fromDay,
    startOdometerKm: timeline.metersAt(fromDay)?.odometerKm ?? first.startOdometerKm,
    startBasis: 'first_record',
    exposure: timeline.exposureBetween(fromDay, first.endDay),
    topUps: first.topUps.filter(({ day }) => day >= fromDay),
    hiddenDrains,
    hiddenDrainChance: hiddenDrains > 0 ? first.hiddenDrainChance : 0,
    breakIn: false,
  };
}
