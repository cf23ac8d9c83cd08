import { isoFromDay, type IsoDate } from '../schema/day.ts';
import type { Warranty } from './moneyUnit.ts';

/** Whether failures are still paid for by someone else, and until when. */
export interface Cover {
  readonly covered: boolean;
  /** last day on which a claim can be made, days since 1970-01-01; null = not covered or not known */
  readonly claimByDay: number | null;
  readonly claimByOn: IsoDate | null;
  readonly reasons: readonly string[];
}

/**
 * Cover ends on its day or at its odometer, whichever comes first; the odometer is carried forward at today's use.
 * A renewal that is covered is claimed, never paid for.
 * @param warranty days, km, km a day; null = none recorded
 * @param asOfDay days since 1970-01-01
 * @returns cover and claim-by day; 1 000 km left at 50 km a day and 60 days left → claim within 20 days
 * @throws RangeError when use a day or an odometer is negative
 * Source: common practice, no source.
 */
export function coverOf(warranty: Warranty | null, asOfDay: number): Cover {
  const none = (reasons: readonly string[]): Cover => ({
    covered: false,
    claimByDay: null,
    claimByOn: null,
    reasons,
  });
  if (warranty === null || (warranty.untilDay === null && warranty.untilKm === null)) return none([]);
  for (const field of ['untilKm', 'odometerKm', 'kmPerDay'] as const) {
    const value = warranty[field];
    if (value !== null && !(value >= 0 && Number.isFinite(value)))
      throw new RangeError(`warranty ${field} must be 0 or above, got ${value}`);
  }
  const { untilDay, untilKm, odometerKm, kmPerDay } = warranty;
  if (untilDay !== null && untilDay < asOfDay) return none([`cover ended on ${isoFromDay(untilDay)}`]);
  const reasons: string[] = [];
  let claimByDay = untilDay;
  if (untilKm !== null) {
    if (odometerKm === null) {
      // without an odometer the cover can not be relied on, so a renewal is not held back for it
      if (untilDay === null) return none(['cover ends at an odometer, and the odometer is not known']);
      reasons.push('the odometer is not known: the cover may have ended by distance');
    } else if (odometerKm >= untilKm) return none([`cover ended at ${Math.round(untilKm)} km`]);
    else if (kmPerDay !== null && kmPerDay > 0) {
      const day = asOfDay + Math.floor((untilKm - odometerKm) / kmPerDay);
      if (claimByDay === null || day < claimByDay) claimByDay = day;
    }
  }
  const claimByOn = claimByDay === null ? null : isoFromDay(claimByDay);
  reasons.unshift(
    claimByOn === null
      ? `covered until ${Math.round(untilKm ?? 0)} km: claim, do not pay`
      : `covered until about ${claimByOn}: claim before then, do not pay`,
  );
  return { covered: true, claimByDay, claimByOn, reasons };
}
