import type { DueJob, FormerPlace, ShopInputs } from '../decisions/shop/shopInputs.ts';
import { dayFromIso } from '../schema/day.ts';
import type { Visit } from '../schema/visit.ts';

const held = new Set<Visit['state']>(['booked', 'arrived', 'waiting_parts']);

/**
 * Booked visits as places that a plan keeps: each with the due jobs that it does, the job it was published for first, else
 * the one due nearest to its day. A visit without a time takes the start of the day and the hours of its jobs.
 * @returns places of visits that are booked or under way and whose unit and site the plan knows
 */
export function bookedPlaces(inputs: ShopInputs, visits: readonly Visit[]): FormerPlace[] {
  const used = new Set<string>();
  return visits.flatMap((visit) => {
    const site = inputs.sites.find((entry) => entry.site === visit.site);
    if (!held.has(visit.state) || site === undefined) return [];
    const day = dayFromIso(visit.on);
    const jobs = visit.jobs.flatMap((job) => {
      const best = nearest(inputs, visit, job, day, used);
      if (best === undefined) return [];
      used.add(best.jobId);
      return [best];
    });
    if (jobs.length === 0) return [];
    const startMinute = visit.startMinute ?? site.opensAtMinute;
    const minutes = Math.round(60 * (visit.plannedHours ?? jobs.reduce((sum, { hours }) => sum + hours, 0)));
    const place: FormerPlace = {
      visitId: visit.planVisitId ?? jobs[0].jobId,
      jobIds: jobs.map(({ jobId }) => jobId),
      unitNumber: visit.unitNumber,
      site: site.site,
      day,
      lastDay: dayFromIso(visit.lastDay),
      bay: visit.bay,
      technician: visit.technician,
      outsideShop: visit.outsideShop,
      startMinute,
      endMinute:
        visit.endMinute ?? Math.max(startMinute + 15, Math.min(site.closesAtMinute, startMinute + minutes)),
    };
    return [place];
  });
}

function nearest(
  inputs: ShopInputs,
  visit: Visit,
  job: DueJob['job'],
  day: number,
  used: ReadonlySet<string>,
): DueJob | undefined {
  const own = inputs.jobs.filter(
    (due) => due.unitNumber === visit.unitNumber && due.job === job && !used.has(due.jobId),
  );
  const named = own.find(({ jobId }) => jobId === visit.planVisitId);
  return named ?? [...own].sort((a, b) => Math.abs(a.medianDay - day) - Math.abs(b.medianDay - day)).at(0);
}
