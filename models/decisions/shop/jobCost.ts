import type { DueJob } from './dueJob.ts';
import { dueCostCents } from './dueCost.ts';
import type { ShopSite, ShopUnit } from './resources.ts';
import type { ShopRules } from './rules.ts';

/** Hours of a visit with the given jobs: set-up once, then each job's labour or bay time, whichever is longer. */
export function visitHours(jobs: readonly DueJob[], rules: ShopRules): number {
  return jobs.reduce((hours, job) => hours + Math.max(job.hours, job.bayHours), rules.setUpHours);
}

/** Cells that the visit takes on the day sheet, at least one. */
export function visitCells(jobs: readonly DueJob[], rules: ShopRules): number {
  return Math.max(1, Math.ceil((visitHours(jobs, rules) * 60) / rules.cellMinutes - 1e-9));
}

/**
 * What a visit costs whatever its day: set-up, downtime in steps of a share of the site's day, own labour.
 * @param cells length of the visit
 * @returns cents, whole. Example: 25.00 set-up, 100.00 a day down in half days, 4 h of an 8 h day, no labour rate:
 * 2500 + 5000 = 7500
 * Source: common practice, no source.
 */
export function fixedVisitCents(
  jobs: readonly DueJob[],
  cells: number,
  unit: ShopUnit,
  site: ShopSite,
  rules: ShopRules,
): number {
  const dayCells = Math.max(1, (site.closesAtMinute - site.opensAtMinute) / rules.cellMinutes);
  const steps = Math.ceil(cells / (dayCells * rules.downtimeStepShare) - 1e-9);
  const downtime = unit.downtimeCentsPerDay * rules.downtimeStepShare * steps;
  const labourHours = jobs.reduce((hours, job) => hours + job.hours, rules.setUpHours);
  return Math.round(rules.setUpCents + downtime + labourHours * site.labourCentsPerHour);
}

/**
 * Cost of a job that stays undone within the horizon: it is done on the cheapest day after it, in a visit of its own.
 * @param firstDayAfter first day after the horizon
 * @returns cents, whole
 */
export function undoneCents(
  job: DueJob,
  firstDayAfter: number,
  unit: ShopUnit,
  site: ShopSite,
  rules: ShopRules,
): number {
  const { earliestDay, medianDay, latestDay } = job.due;
  const days = [firstDayAfter, earliestDay, medianDay, latestDay].filter((day) => day >= firstDayAfter);
  const due = Math.min(...days.map((day) => dueCostCents(job, day, rules.dueWeights)));
  return due + fixedVisitCents([job], visitCells([job], rules), unit, site, rules);
}
