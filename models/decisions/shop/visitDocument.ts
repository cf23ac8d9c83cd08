import { isoFromDay } from '../../schema/day.ts';
import type { PlannedJob, PlanVisit, VisitCostPart } from '../../schema/shopPlan.ts';
import { earlyCents, lateCents } from './dueCost.ts';
import type { DueJob, ShopInputs, ShopSite, ShopUnit } from './shopInputs.ts';
import { downtimeCents, visitLength } from './visitCost.ts';

/** One visit with its place. */
export interface VisitFacts {
  readonly unit: ShopUnit;
  readonly site: ShopSite;
  readonly jobs: readonly DueJob[];
  readonly day: number;
  readonly lastDay: number;
  /** local minutes after midnight of the first and the last day */
  readonly startMinute: number;
  readonly endMinute: number;
  readonly bay: string | null;
  readonly technician: string | null;
  /** position of the outside shop, price and downtime; null = an own bay */
  readonly outside: {
    readonly shop: number;
    readonly priceCents: number;
    readonly downtimeCents: number;
  } | null;
  readonly locked: boolean;
  /** a usual working day of the site, cells */
  readonly dayCells: number;
}

/** The visit as the plan's document tells it, with its expected cost in parts. */
export function visitDocument(inputs: ShopInputs, facts: VisitFacts): PlanVisit {
  const { unit, site, jobs, day, lastDay, startMinute, endMinute } = facts;
  const parts = costParts(inputs, facts);
  const first = jobs.reduce((a, b) => (b.medianDay < a.medianDay ? b : a));
  const shop = facts.outside === null ? null : inputs.outside[facts.outside.shop];
  const length = visitLength(jobs, facts.dayCells, inputs.rules);
  const at = (on: number, minute: number) =>
    localTime(on, minute, inputs.offsetMinutes(site.timeZone, on, minute));
  return {
    id: leadJob(jobs).jobId,
    unitNumber: unit.unitNumber,
    site: site.site,
    unitSite: unit.site,
    place: shop === null ? 'bay' : shop.mobile ? 'mobile' : 'outside',
    outsideShop: shop?.name ?? null,
    bay: facts.bay,
    technician: facts.technician,
    startsAt: at(day, startMinute),
    endsAt: at(lastDay, endMinute),
    on: isoFromDay(day),
    lastDay: isoFromDay(lastDay),
    startMinute,
    endMinute,
    hours: (length.cells * inputs.rules.cellMinutes) / 60,
    jobs: jobs.map(({ job }) => job),
    jobDetails: jobs.map(jobDocument),
    dueFrom: isoFromDay(first.earliestDay),
    dueTo: isoFromDay(first.latestDay),
    locked: facts.locked,
    costCents: parts.reduce((sum, part) => sum + part.cents, 0),
    costParts: parts,
  };
}

/** The job that names the visit: the longest, so that a sample that joins or leaves does not rename an oil service. */
function leadJob(jobs: readonly DueJob[]): DueJob {
  return jobs.reduce((a, b) => (b.hours > a.hours || (b.hours === a.hours && b.jobId < a.jobId) ? b : a));
}

function costParts(
  { rules, outside }: ShopInputs,
  { unit, jobs, day, dayCells, outside: away }: VisitFacts,
): VisitCostPart[] {
  const late = jobs.reduce((sum, job) => sum + lateCents(job, day, rules.dueWeights), 0);
  const early = jobs.reduce((sum, job) => sum + earlyCents(job, day, rules.dueWeights), 0);
  const length = visitLength(jobs, dayCells, rules);
  const parts: VisitCostPart[] = [
    { part: 'set_up', words: 'set-up of the visit', cents: rules.setUpCents },
    {
      part: 'downtime',
      words: 'unit out of use',
      cents: away?.downtimeCents ?? downtimeCents(length, dayCells, unit, rules),
    },
    { part: 'late', words: 'chance of being past due', cents: late },
    { part: 'early', words: 'life thrown away by being early', cents: early },
  ];
  if (away !== null)
    parts.push({ part: 'price', words: `price of ${outside[away.shop].name}`, cents: away.priceCents });
  return parts.filter(({ cents }) => cents !== 0);
}

function jobDocument(job: DueJob): PlannedJob {
  return {
    jobId: job.jobId,
    job: job.job,
    words: job.words,
    hours: job.hours,
    skill: job.skill,
    dueOnEarliest: isoFromDay(job.earliestDay),
    dueOn: isoFromDay(job.medianDay),
    dueOnLatest: isoFromDay(job.latestDay),
    items: [...job.items],
  };
}

const two = (value: number) => String(value).padStart(2, '0');

/**
 * A local time with its offset as RFC 3339 writes it.
 * @param offset of the wall clock from UTC, min; 2026-04-01, 480, −300 → 2026-04-01T08:00:00-05:00
 */
export function localTime(day: number, minute: number, offset: number): string {
  const sign = offset < 0 ? '-' : '+';
  const ahead = Math.abs(offset);
  return `${isoFromDay(day)}T${two(Math.floor(minute / 60))}:${two(minute % 60)}:00${sign}${two(Math.floor(ahead / 60))}:${two(ahead % 60)}`;
}
