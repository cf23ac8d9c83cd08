import type { Assessment } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { FleetHistory } from '../schema/history.ts';
import type { Site } from '../schema/site.ts';

const weekdayNames = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/**
 * Working days a week from `mon-fri` or `mon,tue,sat`.
 * @returns 5 when nothing is recorded or readable
 */
export function workingDays(weekdays: string | null): number {
  if (weekdays === null) return 5;
  const days = new Set<number>();
  for (const part of weekdays.toLowerCase().split(/[,;\s]+/)) {
    const [from, to] = part.split('-').map((name) => weekdayNames.indexOf(name.slice(0, 3)));
    if (from === undefined || from < 0) continue;
    const last = to === undefined || to < 0 ? from : to;
    for (let step = 0; step <= (last - from + 7) % 7; step += 1) days.add((from + step) % 7);
  }
  return days.size === 0 ? 5 : days.size;
}

/** Bay hours a week of a site: the fewer of bays and technicians, times hours and days. */
export function weeklyBayHours(site: Site): number {
  const hands = Math.min(site.bays ?? 1, site.technicians ?? site.bays ?? 1);
  return hands * (site.hoursPerDay ?? 8) * workingDays(site.weekdays);
}

/** Room of one site. */
export interface SiteRoom {
  readonly site: string;
  readonly hoursPerWeek: number;
  readonly assumed: boolean;
}

/** Room of every site that units or site records name; what is not recorded gets one bay, one technician, 8 h on weekdays. */
export function siteRooms(fleet: FleetHistory, coefficients: Coefficients): readonly SiteRoom[] {
  const rooms = new Map<string, SiteRoom>();
  for (const site of fleet.sites)
    rooms.set(site.site, { site: site.site, hoursPerWeek: weeklyBayHours(site), assumed: false });
  for (const { unit } of fleet.units)
    if (
      unit.site !== null &&
      ![...rooms.keys()].some((name) => name.toLowerCase() === unit.site!.toLowerCase())
    )
      rooms.set(unit.site, {
        site: unit.site,
        hoursPerWeek: coefficients['shop.default_site_hours'] ?? 40,
        assumed: true,
      });
  return [...rooms.values()].sort((a, b) => (a.site < b.site ? -1 : a.site > b.site ? 1 : 0));
}

/** The capacities that the assessment states. */
export function capacitiesOf(rooms: readonly SiteRoom[], visitHours: number): Assessment['capacities'] {
  return rooms.map(({ site, hoursPerWeek, assumed }) => ({
    site,
    visitsPerWeek: hoursPerWeek / visitHours,
    assumed,
  }));
}
