import { dayFromIso } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';

/** Records that begin this soon after the unit's first day leave no life untold, d. */
const leastDays = 60;

/**
 * The day on which a unit's records begin, where life before it is untold: drains, repairs and renewals may have happened.
 * @param firstDay first day of the timeline
 * @returns the day, or `firstDay` when the records cover the life from its start
 */
export function recordsFromDay(history: UnitHistory, firstDay: number): number {
  const dates = [
    ...history.services.map((record) => record.servicedOn),
    ...history.readings.map((record) => record.readOn),
    ...history.fuel.map((record) => record.filledOn),
    ...history.samples.map((record) => record.sampledOn),
    ...history.findings.map((record) => record.foundOn),
    ...history.codes.map((record) => record.seenOn),
  ];
  const first = dates.reduce<string | null>(
    (least, date) => (least === null || date < least ? date : least),
    null,
  );
  if (first === null) return firstDay;
  const day = dayFromIso(first);
  return day - firstDay > leastDays ? day : firstDay;
}
