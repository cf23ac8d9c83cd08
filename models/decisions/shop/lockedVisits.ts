import { isoFromDay } from '../../schema/day.ts';
import type { PlanVisit } from '../../schema/shopPlan.ts';
import type { DueJob, FormerPlace, ShopInputs, ShopSite, ShopUnit } from './shopInputs.ts';
import { usualDayCells } from './siteLanes.ts';
import { visitDocument } from './visitDocument.ts';
import { canBeSpared, isOpen, spanHolds } from './weekCalendar.ts';

/** The visits of a site that stay where they are. */
export interface LockedVisits {
  readonly visits: readonly PlanVisit[];
  /** jobs that they do */
  readonly jobIds: ReadonlySet<string>;
  /** what speaks against them, in words */
  readonly messages: readonly string[];
}

/** Puts locked visits into the document as they stand; what no longer fits them is said, never mended by moving them. */
export function lockedVisits(
  inputs: ShopInputs,
  site: ShopSite,
  jobs: readonly DueJob[],
  units: ReadonlyMap<string, ShopUnit>,
): LockedVisits {
  const byId = new Map(jobs.map((job) => [job.jobId, job]));
  const visits: PlanVisit[] = [];
  const jobIds = new Set<string>();
  const messages: string[] = [];
  const own = inputs.locked.filter((place) => place.site === site.site);
  if (own.length === 0) return { visits, jobIds, messages };
  const dayCells = usualDayCells(inputs, site);
  own.forEach((place, i) => {
    const unit = units.get(place.unitNumber);
    const doing = place.jobIds.flatMap((id) => byId.get(id) ?? []).filter((job) => !jobIds.has(job.jobId));
    const name = `the locked visit of ${place.unitNumber} on ${isoFromDay(place.day)}`;
    if (unit === undefined || doing.length === 0) {
      messages.push(`${name} is left out: none of its jobs is due any more`);
      return;
    }
    for (const job of doing) jobIds.add(job.jobId);
    for (const conflict of conflictsOf(inputs, site, unit, place, own.slice(0, i)))
      messages.push(`${name}: ${conflict}`);
    const shop = inputs.outside.findIndex((entry) => entry.name === place.outsideShop);
    const price = doing.reduce((sum, { job }) => sum + (inputs.outside[shop]?.priceCents[job] ?? 0), 0);
    visits.push(
      visitDocument(inputs, {
        unit,
        site,
        jobs: doing,
        day: place.day,
        lastDay: place.lastDay,
        startMinute: place.startMinute,
        endMinute: place.endMinute,
        bay: place.bay,
        technician: place.technician,
        outside:
          shop < 0
            ? null
            : {
                shop,
                priceCents: price,
                downtimeCents: unit.downtimeCentsPerDay * (place.lastDay - place.day + 1),
              },
        locked: true,
        dayCells,
      }),
    );
  });
  return { visits, jobIds, messages };
}

/** What speaks against a visit at a place, in words; empty = nothing. */
export function conflictsOf(
  inputs: ShopInputs,
  site: ShopSite,
  unit: ShopUnit,
  place: FormerPlace,
  others: readonly FormerPlace[],
): string[] {
  const found: string[] = [];
  const on = isoFromDay(place.day);
  if (place.bay !== null || place.technician !== null) {
    if (!isOpen(site, place.day)) found.push(`${site.site} is closed on ${on}`);
    if (place.startMinute < site.opensAtMinute || place.endMinute > site.closesAtMinute)
      found.push('it lies outside the opening hours');
    const person = inputs.technicians.find(
      ({ technician, site: at }) => technician === place.technician && at === site.site,
    );
    if (place.technician !== null && person === undefined)
      found.push(`${place.technician} does not work there`);
    if (person !== undefined && spanHolds(person.away, place.day)) found.push(`${person.technician} is away`);
  }
  for (let day = place.day; day <= place.lastDay; day++)
    if (!canBeSpared(unit, day)) {
      found.push(`the unit can not be spared on ${isoFromDay(day)}`);
      break;
    }
  for (const other of others) {
    if (other.visitId === place.visitId || !overlaps(place, other)) continue;
    if (other.unitNumber === place.unitNumber) found.push('the unit has another visit then');
    else if (place.bay !== null && other.bay === place.bay)
      found.push(`${place.bay} is taken by ${other.unitNumber}`);
    else if (place.technician !== null && other.technician === place.technician)
      found.push(`${place.technician} is with ${other.unitNumber}`);
  }
  return found;
}

/** Whether two stays share some time. */
export function overlaps(a: FormerPlace, b: FormerPlace): boolean {
  const minutes = (day: number, minute: number) => day * 1440 + minute;
  return (
    minutes(a.day, a.startMinute) < minutes(b.lastDay, b.endMinute) &&
    minutes(b.day, b.startMinute) < minutes(a.lastDay, a.endMinute)
  );
}
