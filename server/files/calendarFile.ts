import ical, { ICalEventStatus } from 'ical-generator';
import type { ShopPlan } from '../../models/schema/shopPlan.ts';

/**
 * The visits of a plan as an RFC 5545 calendar, times in UTC; a visit keeps its UID when the plan is made again.
 * @param stamp when the calendar is made, ISO 8601
 * @param site one site only; left out: all
 */
export function calendarText(plan: ShopPlan, stamp: string, site?: string): string {
  const calendar = ical({
    name: site === undefined ? 'Shop plan' : `Shop plan ${site}`,
    prodId: { company: 'Sumpwise', product: 'Shop plan', language: 'EN' },
  });
  for (const visit of plan.visits) {
    if (site !== undefined && visit.site !== site) continue;
    const place = visit.outsideShop ?? [visit.site, visit.bay].filter((part) => part !== null).join(', ');
    calendar.createEvent({
      id: `${encodeURIComponent(visit.id)}@sumpwise`,
      stamp: new Date(stamp),
      start: new Date(visit.startsAt),
      end: new Date(visit.endsAt),
      summary: `${visit.unitNumber}: ${visit.jobDetails.map(({ words }) => words).join(', ')}`,
      location: place,
      description: [
        visit.technician === null ? null : `Technician: ${visit.technician}`,
        `Due ${visit.dueFrom} to ${visit.dueTo}`,
        visit.locked ? 'Locked' : null,
      ]
        .filter((line) => line !== null)
        .join('\n'),
      status: visit.locked ? ICalEventStatus.CONFIRMED : ICalEventStatus.TENTATIVE,
    });
  }
  return calendar.toString();
}
