import type { Call } from '../schema/assessment.ts';
import type { Settings } from '../schema/settings.ts';
import type { CallResult } from './calls.ts';

/** A unit with its own call, before the fleet is looked at as a whole. */
export interface CalledUnit {
  readonly unitNumber: string;
  /** null = no site recorded */
  readonly site: string | null;
  readonly result: CallResult;
  /** median due day, days since 1970-01-01; null = not known */
  readonly dueDayMedian: number | null;
  /** probability that the limit has been passed, 0..1 */
  readonly chancePastNow: number;
  /** chance of failure within the horizon, 0..1; null = not known */
  readonly failureProbability: number | null;
  /** bay time of the visit, h, above 0 */
  readonly visitHours: number;
}

/** Bay time a site has. */
export interface SiteCapacity {
  readonly site: string;
  /** h a week, 0 or more */
  readonly hoursPerWeek: number;
}

/**
 * How many times over a unit stands at the threshold of "book": the greater of chance of failure ÷ book probability and,
 * by due date, 1 at `bookWithinDays` ahead, 2 today, 3 at `bookWithinDays` past. 1 where something else (a paying renewal) booked it.
 * @returns a pure number, 1 or more; due today with chance .1 → 2
 */
export function bookingUrgency(unit: CalledUnit, settings: Settings, asOfDay: number): number {
  const byChance = (unit.failureProbability ?? 0) / settings.bookFailureProbability;
  const byDate =
    unit.dueDayMedian === null ? 0 : 2 - (unit.dueDayMedian - asOfDay) / Math.max(1, settings.bookWithinDays);
  return Math.max(1, byChance, byDate);
}

/**
 * The fleet's step after the single calls: at each site no more units stay at "book" than `bookWeeksOfCapacity` weeks of its
 * bay hours hold, most urgent first; a unit that is past its limit with a chance of at least `bookPastChance` stays
 * whatever the room. The others become "plan" and say why. Other calls are left as they are.
 * @param units with their own calls
 * @param sites bay hours a week; a site that is missing gets the default hours, and its units say so
 * @param settings the shop's thresholds
 * @param asOfDay days since 1970-01-01
 * @param defaultHoursPerWeek bay hours of a site that is not recorded, h (catalog `shop.default_site_hours`)
 * @returns call and reasons by unit, in the order of `units`
 * @throws RangeError when visit hours or site hours are negative or not finite
 * Source: the product's own rule, common practice, no source. Example: three booked units of 2 h at a site with 1 h a
 * week keep one at "book".
 */
export function limitBooked(
  units: readonly CalledUnit[],
  sites: readonly SiteCapacity[],
  settings: Settings,
  asOfDay: number,
  defaultHoursPerWeek: number,
): readonly (CallResult & { readonly unitNumber: string })[] {
  const hoursOf = new Map<string, number>();
  for (const { site, hoursPerWeek } of sites) {
    if (!(hoursPerWeek >= 0 && Number.isFinite(hoursPerWeek)))
      throw new RangeError(`hoursPerWeek of site ${site} must be 0 or above, got ${hoursPerWeek}`);
    hoursOf.set(site, hoursPerWeek);
  }
  const outcome: CallResult[] = units.map((unit) => unit.result);
  const order = units
    .map((unit, index) => ({
      index,
      urgency: bookingUrgency(unit, settings, asOfDay),
      kept: unit.chancePastNow >= settings.bookPastChance,
    }))
    .filter(({ index }) => units[index]!.result.call === 'book')
    .sort((a, b) => Number(b.kept) - Number(a.kept) || b.urgency - a.urgency || a.index - b.index);
  const usedHours = new Map<string, number>();
  for (const { index, kept } of order) {
    const unit = units[index]!;
    if (!(unit.visitHours >= 0 && Number.isFinite(unit.visitHours)))
      throw new RangeError(`visitHours of ${unit.unitNumber} must be 0 or above, got ${unit.visitHours}`);
    const site = unit.site ?? '';
    const known = hoursOf.get(site);
    const room = settings.bookWeeksOfCapacity * (known ?? defaultHoursPerWeek);
    const used = usedHours.get(site) ?? 0;
    const note =
      known === undefined
        ? [`bay hours of the site are not recorded: ${defaultHoursPerWeek} h a week assumed`]
        : [];
    if (kept || used + unit.visitHours <= room + 1e-9) {
      usedHours.set(site, used + unit.visitHours);
      continue;
    }
    const call: Call = 'plan';
    const full = `the site's bays are full for ${settings.bookWeeksOfCapacity} weeks with more urgent units`;
    outcome[index] = { call, reasons: [full, ...unit.result.reasons, ...note] };
  }
  return outcome.map((result, index) => ({ unitNumber: units[index]!.unitNumber, ...result }));
}
