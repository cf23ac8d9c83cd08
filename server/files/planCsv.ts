import type { ShopPlan } from '../../models/schema/shopPlan.ts';
import { csvText } from '../../models/intake/csvText.ts';

const money = (cents: number): string => (cents / 100).toFixed(2);

/** The plan as a CSV table: one row a visit, then one row for each job that has no place. */
export function planCsv(plan: ShopPlan): string {
  const header = [
    'unit_number',
    'site',
    'starts_at',
    'ends_at',
    'bay',
    'technician',
    'outside_shop',
    'jobs',
    'hours',
    'due_from',
    'due_to',
    'locked',
    'cost',
    'not_placed_because',
  ];
  const visits = plan.visits.map((visit) => [
    visit.unitNumber,
    visit.site,
    visit.startsAt,
    visit.endsAt,
    visit.bay,
    visit.technician,
    visit.outsideShop,
    visit.jobs.join(' '),
    visit.hours,
    visit.dueFrom,
    visit.dueTo,
    visit.locked ? 'yes' : 'no',
    money(visit.costCents),
    null,
  ]);
  const left = plan.notPlaced.map((job) => [
    job.unitNumber,
    job.site,
    null,
    null,
    null,
    null,
    null,
    job.job,
    null,
    job.dueOn,
    job.dueOn,
    'no',
    money(job.costCents),
    job.reason,
  ]);
  return csvText(header, [...visits, ...left]);
}
