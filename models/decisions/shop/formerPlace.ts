import { dayFromIso, isoFromDay } from '../../schema/day.ts';
import type { MoveTarget, PlanVisit, ShopPlan } from '../../schema/shopPlan.ts';
import type { FormerPlace, ShopInputs } from './shopInputs.ts';
import { siteLanes } from './siteLanes.ts';
import { isOpen } from './weekCalendar.ts';

/** A visit of a plan as a place that is held. */
export function placeOf(visit: PlanVisit): FormerPlace {
  return {
    visitId: visit.id,
    jobIds: visit.jobDetails.map(({ jobId }) => jobId),
    unitNumber: visit.unitNumber,
    site: visit.site,
    day: dayFromIso(visit.on),
    lastDay: dayFromIso(visit.lastDay),
    bay: visit.bay,
    technician: visit.technician,
    outsideShop: visit.outsideShop,
    startMinute: visit.startMinute,
    endMinute: visit.endMinute,
  };
}

/** The part of a visit that a move changes. */
export type VisitPlace = Pick<
  PlanVisit,
  'on' | 'lastDay' | 'bay' | 'technician' | 'startMinute' | 'endMinute'
>;

/**
 * Where a visit comes to lie: on the day asked for; bay and technician as asked, else a pair that is in a bay that day, its
 * own first; at the time asked for, else its own where that is free, else the first free time of that bay and technician,
 * else its own.
 */
export function targetPlace(
  inputs: ShopInputs,
  plan: ShopPlan,
  visit: PlanVisit,
  to: MoveTarget,
): VisitPlace {
  const site = inputs.sites.find((entry) => entry.site === visit.site);
  const day = dayFromIso(to.on);
  const openDays = site === undefined ? 0 : workDays(visit, site);
  let lastDay = day;
  for (let left = openDays; left > 0 && lastDay < day + 60;) {
    lastDay += 1;
    if (site !== undefined && isOpen(site, lastDay)) left -= 1;
  }
  if (site === undefined || visit.place !== 'bay')
    return { ...visit, on: to.on, lastDay: isoFromDay(lastDay) };
  const lanes = siteLanes({ ...inputs, locked: [], fromDay: day, weeks: 1 }, site);
  const today = lanes.lanes.filter((lane) => lanes.days[lane.dayIndex] === day);
  const pick =
    today.find(
      (lane) =>
        (to.technician === undefined || lane.technician.technician === to.technician) &&
        (to.bay === undefined || lane.bay === to.bay) &&
        (to.technician !== undefined ||
          to.bay !== undefined ||
          lane.technician.technician === visit.technician),
    ) ?? (to.technician === undefined && to.bay === undefined ? today[0] : undefined);
  const bay = to.bay ?? pick?.bay ?? visit.bay;
  const technician = to.technician ?? pick?.technician.technician ?? visit.technician;
  const length = visit.endMinute - visit.startMinute;
  const at = (startMinute: number): VisitPlace => ({
    on: to.on,
    lastDay: isoFromDay(lastDay),
    bay,
    technician,
    startMinute,
    endMinute: openDays > 0 ? visit.endMinute : startMinute + length,
  });
  if (to.startMinute !== undefined) return at(to.startMinute);
  const others = plan.visits.filter(
    (other) =>
      other.id !== visit.id &&
      other.on <= to.on &&
      other.lastDay >= to.on &&
      (other.bay === bay || other.technician === technician) &&
      other.site === visit.site,
  );
  const free = (start: number) =>
    start >= site.opensAtMinute &&
    start + length <= site.closesAtMinute &&
    others.every((other) => start + length <= other.startMinute || start >= other.endMinute);
  if (free(visit.startMinute)) return at(visit.startMinute);
  for (
    let start = site.opensAtMinute;
    start + length <= site.closesAtMinute;
    start += inputs.rules.cellMinutes
  )
    if (free(start)) return at(start);
  return at(visit.startMinute);
}

function workDays(visit: PlanVisit, site: ShopInputs['sites'][number]): number {
  let count = 0;
  for (let day = dayFromIso(visit.on) + 1; day <= dayFromIso(visit.lastDay); day++)
    if (isOpen(site, day)) count += 1;
  return count;
}
