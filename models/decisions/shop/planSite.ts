import type { MilpSolver } from '../milpSolver.ts';
import { isoFromDay } from '../../schema/day.ts';
import type {
  NotPlacedJob,
  PlanDowntime,
  PlanLoad,
  PlanSupply,
  PlanVisit,
  ShopPlan,
} from '../../schema/shopPlan.ts';
import { laneLayout } from './laneLayout.ts';
import { lockedVisits } from './lockedVisits.ts';
import { notPlacedReason } from './notPlacedReason.ts';
import { partsReady } from './partsReady.ts';
import type { PlanEffort } from './planEffort.ts';
import { planDowntime, planLoads, planSupplies } from './planTotals.ts';
import type { DueJob, ShopInputs, ShopSite, ShopUnit } from './shopInputs.ts';
import { siteProblem, type FormerSlot, type SiteProblem } from './siteProblem.ts';
import { searchSite } from './searchSite.ts';
import { withoutBay, type SiteState } from './siteState.ts';
import { visitDocument } from './visitDocument.ts';

/** What the plan's document says of one site. */
export interface SiteDocument {
  readonly site: ShopPlan['sites'][number];
  readonly visits: readonly PlanVisit[];
  readonly notPlaced: readonly NotPlacedJob[];
  readonly loads: readonly PlanLoad[];
  readonly supplies: readonly PlanSupply[];
  readonly downtime: readonly PlanDowntime[];
  readonly messages: readonly string[];
}

/**
 * Plans one site: jobs of its units into bays, people and days.
 * @param jobs of the site's units
 * @param former where an earlier plan had a job; empty for a first plan, which is searched with more freedom
 * @param solver for stretches of days of a first plan, or null
 */
export function planSite(
  inputs: ShopInputs,
  site: ShopSite,
  jobs: readonly DueJob[],
  former: ReadonlyMap<string, FormerSlot>,
  effort: PlanEffort,
  solver: MilpSolver | null = null,
): SiteDocument {
  const units = new Map(inputs.units.map((unit) => [unit.unitNumber, unit]));
  const ready = partsReady({ ...inputs, jobs }, () => site.site);
  const locked = lockedVisits(inputs, site, jobs, units);
  const open = jobs.filter((job) => !locked.jobIds.has(job.jobId));
  const problem = siteProblem(inputs, site, open, ready, former);
  const { state, boundCents, idealCents } = searchSite(problem, former.size === 0, effort, solver);
  const { visits, notPlaced } = documentsOf(state, ready, former);
  const all = [...visits, ...locked.visits].sort((a, b) =>
    a.on === b.on ? a.startMinute - b.startMinute || (a.id < b.id ? -1 : 1) : a.on < b.on ? -1 : 1,
  );
  const fixed = locked.visits.reduce((sum, visit) => sum + visit.costCents, 0);
  const objectiveCents = fixed + [...visits, ...notPlaced].reduce((sum, { costCents }) => sum + costCents, 0);
  const bound = Math.min(objectiveCents, fixed + Math.ceil(boundCents - 1e-3));
  const ideal = Math.min(bound, fixed + Math.ceil(idealCents - 1e-3));
  return {
    site: {
      site: site.site,
      objectiveCents,
      boundCents: bound,
      idealCents: ideal,
      gap: gapOf(objectiveCents, bound, ideal),
    },
    visits: all,
    notPlaced,
    loads: planLoads(inputs, site, all),
    supplies: planSupplies(inputs, site, all),
    downtime: planDowntime(inputs, site, all),
    messages: locked.messages,
  };
}

/** Share of the cost that capacity adds which is not proved to be needed: (objective − bound) / (objective − ideal). */
export function gapOf(objectiveCents: number, boundCents: number, idealCents: number): number {
  return objectiveCents <= boundCents ? 0 : (objectiveCents - boundCents) / (objectiveCents - idealCents);
}

function documentsOf(
  state: SiteState,
  ready: ReadonlyMap<string, number>,
  former: ReadonlyMap<string, FormerSlot>,
) {
  const { problem, place, chosen } = state;
  const { inputs, site, bundles, table, units } = problem;
  const starts = laneLayout(state, former);
  const visits: PlanVisit[] = [];
  const notPlaced: NotPlacedJob[] = [];
  for (const b of chosen.flat()) {
    const bundle = bundles[b];
    const unit = units[bundle.unit];
    const base = { unit, site, jobs: bundle.jobs, locked: false, dayCells: table.dayCells };
    if (place[b] >= 0)
      visits.push(visitDocument(inputs, { ...base, ...inBay(problem, b, place[b], starts.get(b) ?? 0) }));
    else if (place[b] === withoutBay && bundle.outside !== null)
      visits.push(
        visitDocument(inputs, {
          ...base,
          day: bundle.outside.day,
          lastDay: bundle.outside.lastDay,
          startMinute: site.opensAtMinute,
          endMinute: Math.max(site.opensAtMinute + 15, site.closesAtMinute),
          bay: null,
          technician: null,
          outside: bundle.outside,
        }),
      );
    else notPlaced.push(leftOut(problem, unit, bundle.jobs[0], bundle.leftCents, bundle.costs, ready));
  }
  return { visits, notPlaced };
}

function inBay({ table, bundles, site, inputs }: SiteProblem, b: number, lane: number, startCell: number) {
  const { fullDays, lastCells } = bundles[b].length;
  const { dayIndex, bay, technician } = table.lanes[lane];
  const minute = (cell: number) => site.opensAtMinute + cell * inputs.rules.cellMinutes;
  return {
    day: table.days[dayIndex],
    lastDay: table.days[dayIndex + fullDays],
    startMinute: minute(startCell),
    endMinute: minute(fullDays > 0 ? lastCells : startCell + lastCells),
    bay,
    technician: technician.technician,
    outside: null,
  };
}

function leftOut(
  { inputs, table }: SiteProblem,
  unit: ShopUnit,
  job: DueJob,
  costCents: number,
  costs: Float64Array,
  ready: ReadonlyMap<string, number>,
): NotPlacedJob {
  return {
    jobId: job.jobId,
    unitNumber: unit.unitNumber,
    site: unit.site,
    job: job.job,
    words: job.words,
    dueOn: isoFromDay(job.medianDay),
    ...notPlacedReason(inputs, table, unit, job, ready, costs),
    costCents,
  };
}
