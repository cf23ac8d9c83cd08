import { dayFromIso } from '../schema/day.ts';
import type { UnitTimeline } from '../oil/charge.ts';
import type { UnitHistory } from '../schema/history.ts';

/** Records that begin this soon after the unit's first day leave no life untold, d. */
const leastDays = 60;

/**
 * The day on which a unit's records begin, where life before it is untold: drains, repairs and renewals may have happened.
 * @returns the day, or the timeline's first when the records cover the life from its start
 */
export function recordsFromDay(history: UnitHistory, { firstDay, charges }: UnitTimeline): number {
  const drains = charges.filter(({ startBasis }) => startBasis === 'drain').map(({ startDay }) => startDay);
  const dates = [
    ...history.services.map((record) => record.servicedOn),
    ...history.readings.map((record) => record.readOn),
    ...history.fuel.map((record) => record.filledOn),
    ...history.samples.map((record) => record.sampledOn),
    ...history.findings.map((record) => record.foundOn),
    ...history.codes.map((record) => record.seenOn),
  ];
  const days = [...drains, ...dates.map(dayFromIso)];
  if (days.length === 0) return firstDay;
  const day = days.reduce((least, other) => Math.min(least, other));
  return day - firstDay > leastDays ? day : firstDay;
}
