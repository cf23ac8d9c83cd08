import type { ShopSite, ShopTechnician } from '../decisions/shop/shopInputs.ts';
import { weekdaysFromText } from '../decisions/shop/weekCalendar.ts';
import { dayFromIso } from '../schema/day.ts';
import type { FleetHistory } from '../schema/history.ts';
import type { Site } from '../schema/site.ts';

/** Sites and people of a plan. */
export interface PlanPlaces {
  readonly sites: readonly ShopSite[];
  readonly technicians: readonly ShopTechnician[];
  /** the site as its own record spells it; the only one where none is named; null = not known */
  readonly nameOf: (site: string | null) => string | null;
  readonly messages: readonly string[];
}

/** Monday to Friday, where a record names no weekdays. */
export const usualWeek: readonly boolean[] = [true, true, true, true, true, false, false];

/**
 * Sites and technicians as recorded; a site without a record gets one bay, one technician, 8 h on weekdays, and says so;
 * a site without named people gets as many as it counts, who can do everything.
 * @param named sites that units name
 * @param holidays days on which a site is shut, days since 1970-01-01
 */
export function planPlaces(
  fleet: FleetHistory,
  named: readonly (string | null)[],
  holidays: (site: string) => readonly number[],
): PlanPlaces {
  const messages: string[] = [];
  const byName = new Map<string, ShopSite>();
  const technicians: ShopTechnician[] = [];
  const add = (name: string, record: Site | null) => {
    const hours = record?.hoursPerDay ?? 8;
    const opens = minuteOf(record?.opensAt ?? null) ?? 480;
    const bays = record?.bays ?? 1;
    byName.set(name.toLowerCase(), {
      site: name,
      bays: Array.from({ length: bays }, (_, i) => `Bay ${i + 1}`),
      opensAtMinute: opens,
      closesAtMinute: Math.min(1440, Math.round(opens + hours * 60)),
      weekdays: weekdaysFromText(record?.weekdays ?? '') ?? usualWeek,
      holidays: holidays(name),
      timeZone: record?.timeZone ?? 'UTC',
    });
    if (record === null)
      messages.push(`${name} is not recorded: one bay, one technician and 8 h on weekdays are taken`);
    else if (record.timeZone === null) messages.push(`${name} has no time zone on record: UTC is taken`);
    const people = peopleOf(fleet, name, hours);
    const count = record?.technicians ?? Math.max(1, bays);
    if (people.length === 0 && count > 0)
      messages.push(`${name} has no technicians by name: ${count} who can do everything are taken`);
    technicians.push(
      ...(people.length > 0
        ? people
        : Array.from({ length: count }, (_, i) => ({
            technician: `Technician ${i + 1}`,
            site: name,
            skills: null,
            hoursPerDay: hours,
            away: [],
          }))),
    );
  };
  for (const record of fleet.sites) add(record.site, record);
  for (const name of named) if (name !== null && !byName.has(name.toLowerCase())) add(name, null);
  const only = byName.size === 1 ? [...byName.values()][0].site : null;
  return {
    sites: [...byName.values()],
    technicians,
    nameOf: (site) => (site === null ? only : (byName.get(site.toLowerCase())?.site ?? null)),
    messages,
  };
}

function peopleOf(fleet: FleetHistory, site: string, hours: number): ShopTechnician[] {
  const found = new Map<
    string,
    { hoursPerDay: number; skills: string[]; away: { fromDay: number; toDay: number }[] }
  >();
  for (const row of fleet.technicians) {
    if ((row.site ?? '').toLowerCase() !== site.toLowerCase()) continue;
    const person = found.get(row.technician) ?? {
      hoursPerDay: row.hoursPerDay ?? hours,
      skills: [],
      away: [],
    };
    for (const skill of (row.skills ?? '').split(/[;,]/))
      if (skill.trim() !== '') person.skills.push(skill.trim());
    if (row.awayFrom !== null)
      person.away.push({ fromDay: dayFromIso(row.awayFrom), toDay: dayFromIso(row.awayTo ?? row.awayFrom) });
    found.set(row.technician, person);
  }
  return [...found].map(([technician, person]) => ({ technician, site, ...person }));
}

/** Minutes after midnight of `07:30`; null where it is no time. */
function minuteOf(text: string | null): number | null {
  const match = text === null ? null : /^(\d{1,2}):(\d{2})/.exec(text);
  return match === null ? null : Math.min(1439, Number(match[1]) * 60 + Number(match[2]));
}
