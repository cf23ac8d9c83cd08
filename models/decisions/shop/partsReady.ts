import type { DueJob, ShopInputs } from './shopInputs.ts';

/**
 * First day on which the parts of each job lie ready: what is on the shelf goes to the jobs that fall due first, the rest
 * is ordered on the as-of day and comes after its lead time. An item with no stock record is taken to be had at once.
 * @param siteOf site of a unit
 * @returns days since 1970-01-01 by job id; Infinity = never; a job that waits for nothing is not in it
 */
export function partsReady(
  inputs: Pick<ShopInputs, 'shelf' | 'jobs' | 'asOfDay'>,
  siteOf: (unitNumber: string) => string | null,
): ReadonlyMap<string, number> {
  const key = (site: string | null, item: string) => `${site}\n${item.toLowerCase()}`;
  const shelf = new Map(
    inputs.shelf.map((entry) => [
      key(entry.site, entry.item),
      { left: entry.onHand, lead: entry.leadTimeDays },
    ]),
  );
  const ready = new Map<string, number>();
  const inOrder = [...inputs.jobs].sort(
    (a: DueJob, b: DueJob) => a.medianDay - b.medianDay || (a.jobId < b.jobId ? -1 : 1),
  );
  for (const job of inOrder)
    for (const { item, quantity } of job.items) {
      const entry = shelf.get(key(siteOf(job.unitNumber), item));
      if (entry === undefined) continue;
      if (entry.left >= quantity) entry.left -= quantity;
      else {
        const day = entry.lead === null ? Infinity : inputs.asOfDay + entry.lead;
        ready.set(job.jobId, Math.max(ready.get(job.jobId) ?? 0, day));
      }
    }
  return ready;
}
