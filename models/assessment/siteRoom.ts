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

/**
 * Bay hours a week of a site for all work: bays times opening hours, or the hours of its people where they are fewer; times
 * days. People are those on record by name, else as many as the site counts, for its opening hours.
 * @param people hours a day of the technicians on record by name; empty: none named
 * @example 2 bays of 8 h, mon-fri, people of 8 h and 4 h → 12 h a day, 60 h a week
 */
export function weeklyBayHours(site: Site, people: readonly number[]): number {
  const hours = site.hoursPerDay ?? 8;
  const bays = site.bays ?? 1;
  const hands =
    people.length > 0 ? people.reduce((sum, own) => sum + own, 0) : (site.technicians ?? bays) * hours;
  return Math.min(bays * hours, hands) * workingDays(site.weekdays);
}

/** Hours a day of the people of a site, each once, whatever days they are away. */
function peopleOf(fleet: FleetHistory, site: Site): number[] {
  const hours = new Map<string, number>();
  for (const { technician, site: at, hoursPerDay } of fleet.technicians)
    if ((at ?? '').toLowerCase() === site.site.toLowerCase())
      hours.set(technician, hoursPerDay ?? hours.get(technician) ?? site.hoursPerDay ?? 8);
  return [...hours.values()];
}

/** Room of one site for oil and timing work. */
export interface SiteRoom {
  readonly site: string;
  /** share of its bay hours that is there for this work, 0..1 */
  readonly share: number;
  readonly hoursPerWeek: number;
  readonly assumed: boolean;
}

/**
 * Room of every site that units or site records name, for oil and timing work: the share of its bay hours that the settings
 * say. What is not recorded gets one bay, one technician, 8 h on weekdays.
 */
export function siteRooms(fleet: FleetHistory, coefficients: Coefficients): readonly SiteRoom[] {
  const share = fleet.settings.oilShareOfShopHours;
  const rooms = new Map<string, SiteRoom>();
  for (const site of fleet.sites)
    rooms.set(site.site, {
      site: site.site,
      share,
      hoursPerWeek: share * weeklyBayHours(site, peopleOf(fleet, site)),
      assumed: false,
    });
  for (const { unit } of fleet.units)
    if (
      unit.site !== null &&
      ![...rooms.keys()].some((name) => name.toLowerCase() === unit.site!.toLowerCase())
    )
      rooms.set(unit.site, {
        site: unit.site,
        share,
        hoursPerWeek: share * (coefficients['shop.default_site_hours'] ?? 40),
        assumed: true,
      });
  return [...rooms.values()].sort((a, b) => (a.site < b.site ? -1 : a.site > b.site ? 1 : 0));
}

/** The capacities that the assessment states. */
export function capacitiesOf(rooms: readonly SiteRoom[], visitHours: number): Assessment['capacities'] {
  return rooms.map(({ site, share, hoursPerWeek, assumed }) => ({
    site,
    visitsPerWeek: hoursPerWeek / visitHours,
    shopShare: share,
    assumed,
  }));
}
