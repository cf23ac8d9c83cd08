import { cheapestOutside, type OutsideOffer } from './outsideOffer.ts';
import { dueCostCents } from './dueCost.ts';
import type { DueJob, ShopInputs, ShopSite, ShopUnit } from './shopInputs.ts';
import { laneTable, type LaneTable } from './laneTable.ts';
import { bundleGroups } from './visitBundles.ts';
import { downtimeCents, undoneCents, visitLength, type VisitLength } from './visitCost.ts';
import { groupSplits, type GroupSplits, type MaskGroup } from './visitSplits.ts';
import { canBeSpared } from './weekCalendar.ts';

/** A possible visit: some jobs of one unit, with its cost on each day it may begin. */
export interface Bundle {
  readonly group: number;
  readonly unit: number;
  readonly jobs: readonly DueJob[];
  readonly type: number;
  readonly length: VisitLength;
  /** set-up and downtime, cents */
  readonly fixedCents: number;
  /** first open day with a cost, and cost by open day from there; Infinity = can't begin then */
  readonly firstDay: number;
  readonly costs: Float64Array;
  /** with the price of moving from where an earlier plan had the jobs; the same array where there is none */
  readonly searchCosts: Float64Array;
  /** open days in order of search cost, those that can't be left out */
  readonly order: Int32Array;
  readonly outside: OutsideOffer | null;
  /** cheapest way without a bay: outside, or, for a single job, left until after the plan */
  readonly otherCents: number;
  /** left until after the plan; Infinity for several jobs together */
  readonly leftCents: number;
  readonly otherMoveCents: number;
  /** lane that an earlier plan had it in, or −1 */
  readonly formerLane: number;
}

/** One site laid out for the search. */
export interface SiteProblem {
  readonly inputs: ShopInputs;
  readonly site: ShopSite;
  readonly table: LaneTable;
  readonly units: readonly ShopUnit[];
  readonly bundles: readonly Bundle[];
  readonly groupUnit: readonly number[];
  /** groups of each unit */
  readonly unitGroups: readonly (readonly number[])[];
  readonly splits: GroupSplits;
  /** open days that each unit is away for locked visits, as text `unit|day` */
  readonly busy: ReadonlySet<string>;
}

/** Where an earlier plan had a job. */
export interface FormerSlot {
  readonly day: number;
  readonly bay: string | null;
  readonly technician: string | null;
  readonly startMinute: number;
}

/**
 * Lays one site out: lanes, the visits each unit's jobs allow, and what each costs by day.
 * @param jobs of the site's units, those of locked visits left out
 * @param ready first day on which a job's parts lie ready
 * @param former where an earlier plan had a job, by job id
 */
export function siteProblem(
  inputs: ShopInputs,
  site: ShopSite,
  jobs: readonly DueJob[],
  ready: ReadonlyMap<string, number>,
  former: ReadonlyMap<string, FormerSlot>,
): SiteProblem {
  const { rules } = inputs;
  const table = laneTable(inputs, site, jobs);
  const byUnit = new Map<string, DueJob[]>();
  for (const job of jobs) {
    const own = byUnit.get(job.unitNumber);
    if (own === undefined) byUnit.set(job.unitNumber, [job]);
    else own.push(job);
  }
  const unitOf = new Map(inputs.units.map((unit) => [unit.unitNumber, unit]));
  const units: ShopUnit[] = [];
  const bundles: Bundle[] = [];
  const groupUnit: number[] = [];
  const unitGroups: number[][] = [];
  const masks: MaskGroup[] = [];
  const busy = busyDays(inputs);
  for (const [unitNumber, own] of byUnit) {
    const unit = unitOf.get(unitNumber);
    if (unit === undefined) continue;
    const u = units.push(unit) - 1;
    unitGroups.push([]);
    const spared = table.days.map((day) => canBeSpared(unit, day) && !busy.has(`${unit.unitNumber}|${day}`));
    const jobCosts = new Map(own.map((job) => [job, table.days.map((day) => dueCostCents(job, day, rules))]));
    const reaches = own.map((job) => ({
      kind: job.job,
      fromDay: Math.max(job.earliestDay, inputs.fromDay) - rules.bundleReachDays,
      toDay: Math.max(job.latestDay, inputs.fromDay) + rules.bundleReachDays,
      medianDay: job.medianDay,
    }));
    for (const group of bundleGroups(reaches, rules.mostJobsPerVisit)) {
      const g = groupUnit.push(u) - 1;
      unitGroups[u].push(g);
      masks.push({ jobCount: group.jobs.length, masks: group.masks });
      for (const mask of group.masks) {
        const chosen = group.jobs.filter((_, bit) => (mask >> bit) & 1).map((i) => own[i]);
        bundles.push(bundleOf({ inputs, table, unit, u, g, chosen, spared, jobCosts, ready, former, busy }));
      }
    }
  }
  return { inputs, site, table, units, bundles, groupUnit, unitGroups, splits: groupSplits(masks), busy };
}

function busyDays(inputs: ShopInputs): Set<string> {
  const busy = new Set<string>();
  for (const { unitNumber, day, lastDay } of inputs.locked)
    for (let d = day; d <= lastDay; d++) busy.add(`${unitNumber}|${d}`);
  return busy;
}

interface Drafted {
  readonly inputs: ShopInputs;
  readonly table: LaneTable;
  readonly unit: ShopUnit;
  readonly u: number;
  readonly g: number;
  readonly chosen: readonly DueJob[];
  readonly spared: readonly boolean[];
  readonly jobCosts: ReadonlyMap<DueJob, readonly number[]>;
  readonly ready: ReadonlyMap<string, number>;
  readonly former: ReadonlyMap<string, FormerSlot>;
  readonly busy: ReadonlySet<string>;
}

function bundleOf(draft: Drafted): Bundle {
  const { inputs, table, unit, chosen, spared, jobCosts, ready, former } = draft;
  const { rules } = inputs;
  const { days, dayCells } = table;
  const length = visitLength(chosen, dayCells, rules);
  const fixedCents = rules.setUpCents + downtimeCents(length, dayCells, unit, rules);
  const type = table.typeOf(length, chosen);
  const from = Math.max(
    inputs.fromDay,
    Math.min(...chosen.map((job) => job.earliestDay)) - rules.daysAhead,
    ...chosen.map((job) => Math.max(job.notBeforeDay ?? 0, ready.get(job.jobId) ?? 0)),
  );
  const to = Math.max(inputs.fromDay, ...chosen.map((job) => job.latestDay)) + rules.daysBehind;
  let firstDay = days.findIndex((day) => day >= from);
  if (firstDay < 0) firstDay = days.length;
  let endDay = firstDay;
  while (endDay < days.length && days[endDay] <= to) endDay += 1;
  if (length.fullDays >= rules.mostDays) endDay = firstDay;
  const firstAfter = inputs.fromDay + 7 * inputs.weeks;
  const offer = cheapestOutside(inputs, chosen, unit, draft.busy);
  const left = chosen.length === 1 ? undoneCents(chosen[0], firstAfter, dayCells, unit, rules) : Infinity;
  const outside = offer !== null && offer.costCents < left ? offer : null;
  const otherCents = Math.min(offer?.costCents ?? Infinity, left);
  const costs = new Float64Array(endDay - firstDay).fill(Infinity);
  const fits = table.typeFits[type];
  const sums = chosen.map((job) => jobCosts.get(job) ?? []);
  for (let d = firstDay; d < endDay; d++) {
    if (!fits[d]) continue;
    let free = true;
    for (let k = d; k <= d + length.fullDays && free; k++) free = spared[k];
    if (!free) continue;
    let cents = fixedCents;
    for (const own of sums) cents += own[d];
    if (cents < otherCents) costs[d - firstDay] = cents;
  }
  const slots = chosen.flatMap((job) => former.get(job.jobId) ?? []);
  const searchCosts =
    slots.length === 0
      ? costs
      : costs.map(
          (cents, i) =>
            cents + rules.moveCents * slots.filter((slot) => slot.day !== days[firstDay + i]).length,
        );
  const order = Int32Array.from(
    [...searchCosts.keys()]
      .filter((i) => searchCosts[i] < Infinity)
      .sort((a, b) => searchCosts[a] - searchCosts[b] || a - b),
    (i) => i + firstDay,
  );
  const held = slots[0] as FormerSlot | undefined;
  return {
    group: draft.g,
    unit: draft.u,
    jobs: chosen,
    type,
    length,
    fixedCents,
    firstDay,
    costs,
    searchCosts,
    order,
    outside,
    otherCents,
    leftCents: left,
    otherMoveCents: rules.moveCents * slots.length,
    formerLane:
      held === undefined
        ? -1
        : table.lanes.findIndex(
            (lane) =>
              days[lane.dayIndex] === held.day &&
              lane.bay === held.bay &&
              lane.technician.technician === held.technician,
          ),
  };
}
