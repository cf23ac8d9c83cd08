import { dayFromIso, isoFromDay } from '../../schema/day.ts';
import type { PlanDowntime, PlanLoad, PlanSupply, PlanVisit } from '../../schema/shopPlan.ts';
import type { ShelfItem, ShopInputs, ShopSite } from './shopInputs.ts';
import { siteLanes, usualDayCells } from './siteLanes.ts';
import { isOpen, mondayOf } from './weekCalendar.ts';

const two = (value: number) => Math.round(value * 100) / 100;

/** Hours used against hours at hand, by day for each technician and for the whole site. */
export function planLoads(inputs: ShopInputs, site: ShopSite, visits: readonly PlanVisit[]): PlanLoad[] {
  const { days, lanes } = siteLanes({ ...inputs, locked: [] }, site);
  const rows = new Map<
    string,
    { day: number; technician: string | null; bay: string | null; used: number; room: number }
  >();
  const row = (day: number, technician: string | null, bay: string | null) => {
    const key = `${day}|${technician ?? ''}`;
    let found = rows.get(key);
    if (found === undefined) rows.set(key, (found = { day, technician, bay, used: 0, room: 0 }));
    return found;
  };
  for (const lane of lanes) {
    const hours = (lane.cells * inputs.rules.cellMinutes) / 60;
    row(days[lane.dayIndex], null, null).room += hours;
    row(days[lane.dayIndex], lane.technician.technician, lane.bay).room += hours;
  }
  const cell = inputs.rules.cellMinutes;
  const usual = usualDayCells(inputs, site) * cell;
  for (const visit of visits)
    if (visit.place === 'bay') {
      const [from, to] = [dayFromIso(visit.on), dayFromIso(visit.lastDay)];
      for (let day = from; day <= to; day++) {
        if (day !== from && day !== to && !isOpen(site, day)) continue;
        const start = day === from ? visit.startMinute : site.opensAtMinute;
        const end = day === to ? visit.endMinute : Math.max(start, site.opensAtMinute + usual);
        row(day, null, null).used += (end - start) / 60;
        row(day, visit.technician ?? 'not named', visit.bay).used += (end - start) / 60;
      }
    }
  return [...rows.values()]
    .sort((a, b) => a.day - b.day || ((a.technician ?? '') < (b.technician ?? '') ? -1 : 1))
    .map(({ day, technician, bay, used, room }) => ({
      site: site.site,
      on: isoFromDay(day),
      technician,
      bay,
      usedHours: two(used),
      capacityHours: two(room),
    }));
}

/** What the visits of each week take from the shelf, and what has to be ordered until when. */
export function planSupplies(inputs: ShopInputs, site: ShopSite, visits: readonly PlanVisit[]): PlanSupply[] {
  const shelf = new Map<string, ShelfItem>();
  for (const item of inputs.shelf) if (item.site === site.site) shelf.set(item.item.toLowerCase(), item);
  const left = new Map([...shelf].map(([name, { onHand }]) => [name, onHand]));
  const rows = new Map<string, PlanSupply>();
  const inOrder = visits.filter((visit) => visit.place === 'bay').sort((a, b) => (a.on < b.on ? -1 : 1));
  for (const visit of inOrder)
    for (const { item, kind, quantity, measure } of visit.jobDetails.flatMap((job) => job.items)) {
      const day = dayFromIso(visit.on);
      const week = isoFromDay(mondayOf(day));
      const name = item.toLowerCase();
      const stands = left.get(name);
      const short = Math.max(0, quantity - Math.max(0, stands ?? 0));
      if (stands !== undefined) left.set(name, stands - quantity);
      const before = rows.get(`${week}|${name}`);
      const orderBy = short > 0 ? isoFromDay(day - Math.ceil(shelf.get(name)?.leadTimeDays ?? 0)) : null;
      rows.set(`${week}|${name}`, {
        week,
        site: site.site,
        item,
        kind,
        quantity: two((before?.quantity ?? 0) + quantity),
        measure,
        toOrder: two((before?.toOrder ?? 0) + short),
        orderBy: before?.orderBy ?? orderBy,
      });
    }
  return [...rows.values()].sort((a, b) => (a.week + a.item < b.week + b.item ? -1 : 1));
}

/** Days that units are out of use for visits, by week of the visit's first day. */
export function planDowntime(
  inputs: ShopInputs,
  site: ShopSite,
  visits: readonly PlanVisit[],
): PlanDowntime[] {
  const perDay = new Map(inputs.units.map((unit) => [unit.unitNumber, unit.downtimeCentsPerDay]));
  const weeks = new Map<string, { days: number; cents: number }>();
  for (const visit of visits) {
    const week = isoFromDay(mondayOf(dayFromIso(visit.on)));
    const sum = weeks.get(week) ?? { days: 0, cents: 0 };
    const cents = visit.costParts.find(({ part }) => part === 'downtime')?.cents ?? 0;
    const rate = perDay.get(visit.unitNumber) ?? 0;
    const days = rate > 0 ? cents / rate : dayFromIso(visit.lastDay) - dayFromIso(visit.on) + 0.25;
    weeks.set(week, { days: sum.days + days, cents: sum.cents + cents });
  }
  return [...weeks]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([week, { days, cents }]) => ({ site: site.site, week, days: two(days), cents }));
}
