import type { PlanDifference, PlanVisit, ShopPlan } from '../../schema/shopPlan.ts';

const where = (visit: PlanVisit): string =>
  [
    visit.on,
    `${String(Math.floor(visit.startMinute / 60)).padStart(2, '0')}:${String(visit.startMinute % 60).padStart(2, '0')}`,
    visit.outsideShop ?? visit.bay,
    visit.technician,
  ]
    .filter((part) => part !== null)
    .join(', ');

/** What is other in a plan than in an earlier one, visit by visit. */
export function planDifferences(earlier: ShopPlan, plan: ShopPlan): PlanDifference[] {
  const before = new Map(earlier.visits.map((visit) => [visit.id, visit]));
  const now = new Set(plan.visits.map(({ id }) => id));
  const found: PlanDifference[] = [];
  for (const visit of plan.visits) {
    const former = before.get(visit.id);
    const base = { visitId: visit.id, unitNumber: visit.unitNumber };
    if (former === undefined)
      found.push({
        ...base,
        kind: 'new',
        before: null,
        after: where(visit),
        words: `new visit of ${visit.unitNumber}: ${where(visit)}`,
      });
    else if (where(former) !== where(visit))
      found.push({
        ...base,
        kind: 'moved',
        before: where(former),
        after: where(visit),
        words: `${visit.unitNumber} moves from ${where(former)} to ${where(visit)}`,
      });
    else if ([...former.jobs].sort().join() !== [...visit.jobs].sort().join())
      found.push({
        ...base,
        kind: 'other_jobs',
        before: former.jobs.join(', '),
        after: visit.jobs.join(', '),
        words: `${visit.unitNumber}: other jobs in the visit of ${visit.on}`,
      });
  }
  for (const visit of earlier.visits)
    if (!now.has(visit.id))
      found.push({
        kind: 'gone',
        visitId: visit.id,
        unitNumber: visit.unitNumber,
        before: where(visit),
        after: null,
        words: `the visit of ${visit.unitNumber} on ${visit.on} is gone`,
      });
  return found;
}
