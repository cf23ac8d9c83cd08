import { dueCostCents } from './dueCost.ts';
import type { DueJob, ShopUnit } from './shopInputs.ts';
import type { ShopRules } from './shopRules.ts';

/** How long a visit takes: whole days before the last one, and cells on the last. */
export interface VisitLength {
  readonly cells: number;
  readonly fullDays: number;
  readonly lastCells: number;
}

/**
 * Length of a visit: set-up once, then each job; longer than a day, it fills whole days and part of a last one.
 * @param dayCells a usual working day of the site, cells, 1 or more
 */
export function visitLength(jobs: readonly DueJob[], dayCells: number, rules: ShopRules): VisitLength {
  const hours = jobs.reduce((sum, job) => sum + job.hours, rules.setUpHours);
  const cells = Math.max(1, Math.ceil((hours * 60) / rules.cellMinutes - 1e-9));
  const fullDays = Math.floor((cells - 1) / dayCells);
  return { cells, fullDays, lastCells: cells - fullDays * dayCells };
}

/**
 * Downtime of a visit in steps of a share of the site's day.
 * @returns cents. Example: 100.00 a day, quarter days, 9 cells of a day of 32: 2 steps, 5000
 * Source: common practice, no source.
 */
export function downtimeCents(
  length: VisitLength,
  dayCells: number,
  unit: Pick<ShopUnit, 'downtimeCentsPerDay'>,
  rules: ShopRules,
): number {
  return Math.round(unit.downtimeCentsPerDay * downtimeDays(length, dayCells, rules));
}

/** Downtime of a visit, days. */
export function downtimeDays(length: VisitLength, dayCells: number, rules: ShopRules): number {
  const step = rules.downtimeStepShare;
  const last = Math.min(1, step * Math.ceil(length.lastCells / (dayCells * step) - 1e-9));
  return length.fullDays + last;
}

/**
 * Cost of a job that stays undone within the plan: it is done on the cheapest day after it, in a visit of its own.
 * @param firstDayAfter first day after the plan
 * @returns cents
 */
export function undoneCents(
  job: DueJob,
  firstDayAfter: number,
  dayCells: number,
  unit: ShopUnit,
  rules: ShopRules,
): number {
  const days = [firstDayAfter, job.earliestDay, job.medianDay, job.latestDay, job.notBeforeDay ?? 0];
  const due = Math.min(
    ...days.filter((day) => day >= firstDayAfter).map((day) => dueCostCents(job, day, rules)),
  );
  return due + rules.setUpCents + downtimeCents(visitLength([job], dayCells, rules), dayCells, unit, rules);
}
