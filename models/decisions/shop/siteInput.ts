import type { DueJob } from './dueJob.ts';
import type { DaySpan, OutsideShop, ShopSite, ShopTechnician, ShopUnit } from './resources.ts';
import type { ShopRules } from './rules.ts';

/** A visit that the plan must leave where it is, as far as it takes room at the site. */
export interface LockedSlot {
  readonly unitNumber: string;
  /** days on which the unit is in the shop */
  readonly span: DaySpan;
  /** null = none of the site's bays */
  readonly bay: string | null;
  readonly technician: string | null;
  /** local minutes after midnight of the first day */
  readonly startMinute: number;
  readonly endMinute: number;
}

/** Where an earlier plan had a job. */
export interface FormerSlot {
  readonly day: number;
  readonly bay: string | null;
  readonly technician: string | null;
  readonly startMinute: number;
}

/** Everything that one site's plan rests on; jobs of locked visits are not among the jobs. */
export interface SiteInput {
  readonly fromDay: number;
  readonly weeks: number;
  readonly site: ShopSite;
  readonly technicians: readonly ShopTechnician[];
  /** units that have jobs, each once */
  readonly units: readonly ShopUnit[];
  readonly jobs: readonly DueJob[];
  readonly outside: readonly OutsideShop[];
  readonly locked: readonly LockedSlot[];
  /** first day on which the parts of a job lie ready, by job id; null = never; missing = ready */
  readonly partsDay: ReadonlyMap<string, number | null>;
  /** where an earlier plan had the job, by job id */
  readonly former: ReadonlyMap<string, FormerSlot>;
  readonly rules: ShopRules;
}

/** First day for the own bay: the job's own and its parts'; Infinity = never. */
export function ownBayFromDay(input: SiteInput, job: DueJob): number {
  const parts = input.partsDay.get(job.jobId);
  if (parts === null) return Infinity;
  return Math.max(job.notBeforeDay ?? -Infinity, parts ?? -Infinity);
}

/** Cells from opening to closing. */
export function openCellsOf(site: ShopSite, rules: ShopRules): number {
  return Math.max(0, Math.floor((site.closesAtMinute - site.opensAtMinute) / rules.cellMinutes + 1e-9));
}

/** Cells a technician works on a day of presence, within the opening hours. */
export function workCells(person: ShopTechnician, openCells: number, rules: ShopRules): number {
  return Math.min(openCells, Math.floor((person.hoursPerDay * 60) / rules.cellMinutes + 1e-9));
}

/** Technicians, by position, who have every skill that the jobs ask for. */
export function ableTechnicians(
  technicians: readonly ShopTechnician[],
  jobs: readonly Pick<DueJob, 'skill'>[],
): number[] {
  return technicians.flatMap((person, k) =>
    jobs.every((job) => job.skill === null || person.skills.includes(job.skill)) ? [k] : [],
  );
}
