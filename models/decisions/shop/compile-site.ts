import { bundleGroups } from './bundles.ts';
import { canBeSpared, isOpen, spanHolds } from './calendar.ts';
import type { DueJob } from './due-job.ts';
import { dueCostCents } from './due-cost.ts';
import { fixedVisitCents, undoneCents, visitCells } from './job-cost.ts';
import { cheapestOutside } from './outside.ts';
import type { OutsideShop, ShopSite, ShopTechnician, ShopUnit } from './resources.ts';
import type { ShopRules } from './rules.ts';
import { impossibleCents, type HeldCells, type SiteProblem } from './site-problem.ts';
import { groupSplits } from './splits.ts';

/** A visit of the site that the plan must leave where it is. */
export interface LockedSlot {
  readonly unitNumber: string;
  readonly day: number;
  readonly bay: string;
  readonly technician: string | null;
  readonly startMinute: number;
  readonly endMinute: number;
}

/** Everything that one site's plan rests on; jobs of locked visits are not among the jobs. */
export interface SiteInput {
  readonly fromDay: number;
  readonly weeks: number;
  readonly site: ShopSite;
  readonly technicians: readonly ShopTechnician[];
  readonly units: readonly ShopUnit[];
  readonly jobs: readonly DueJob[];
  readonly outside: readonly OutsideShop[];
  readonly locked: readonly LockedSlot[];
  /** day on which an earlier plan had the job, by job id */
  readonly formerDay: ReadonlyMap<string, number>;
  readonly rules: ShopRules;
}

/** Turns a site's records into the arrays that bound and search work on. */
export function compileSite(input: SiteInput): SiteProblem {
  const { site, rules, technicians } = input;
  const horizonDays = input.weeks * 7;
  const openCells = Math.max(0, Math.floor((site.closesAtMinute - site.opensAtMinute) / rules.cellMinutes));
  const days: number[] = [];
  for (let day = input.fromDay; day < input.fromDay + horizonDays; day++)
    if (openCells > 0 && site.bays.length > 0 && isOpen(site, day)) days.push(day);
  const dayIndex = new Map(days.map((day, index) => [day, index]));
  const technicianCells = new Int32Array(days.length * technicians.length);
  days.forEach((day, d) =>
    technicians.forEach((person, k) => {
      const cells = Math.floor((person.hoursPerDay * 60) / rules.cellMinutes + 1e-9);
      technicianCells[d * technicians.length + k] = spanHolds(person.away, day)
        ? 0
        : Math.min(openCells, cells);
    }),
  );
  const bundles = compileBundles(input, days, openCells);
  const unitIndex = new Map(input.units.map((unit, index) => [unit.unitNumber, index]));
  const unitTakenDays: number[][] = input.units.map(() => []);
  const held: HeldCells[] = [];
  for (const slot of input.locked) {
    const d = dayIndex.get(slot.day);
    if (d === undefined) continue;
    unitTakenDays[unitIndex.get(slot.unitNumber) ?? -1]?.push(d);
    const bay = site.bays.indexOf(slot.bay);
    const technician = technicians.findIndex((person) => person.technician === slot.technician);
    const from = (slot.startMinute - site.opensAtMinute) / rules.cellMinutes;
    const to = (slot.endMinute - site.opensAtMinute) / rules.cellMinutes;
    const firstCell = Math.max(0, Math.floor(from + 1e-9));
    const endCell = Math.min(openCells, Math.ceil(to - 1e-9));
    if (endCell > firstCell) held.push({ dayIndex: d, bay, technician, firstCell, endCell });
  }
  return {
    site: site.site,
    days: Int32Array.from(days),
    cellMinutes: rules.cellMinutes,
    opensAtMinute: site.opensAtMinute,
    openCells,
    bayCount: site.bays.length,
    technicians,
    technicianCells,
    held,
    unitTakenDays,
    ...bundles,
  };
}

type Bundles = Pick<
  SiteProblem,
  | 'typeCells'
  | 'typeTechnicians'
  | 'bundleGroup'
  | 'bundleType'
  | 'bundleJobs'
  | 'bundleFirstDay'
  | 'bundleStart'
  | 'costs'
  | 'bundleOtherCents'
  | 'bundleOtherShop'
  | 'bundleOtherDay'
  | 'groupUnit'
  | 'splits'
>;

function compileBundles(input: SiteInput, days: readonly number[], openCells: number): Bundles {
  const { jobs, rules, site, technicians } = input;
  const afterDay = input.fromDay + input.weeks * 7;
  const jobsOfUnit = new Map<string, number[]>();
  jobs.forEach((job, j) => {
    const list = jobsOfUnit.get(job.unitNumber);
    if (list === undefined) jobsOfUnit.set(job.unitNumber, [j]);
    else list.push(j);
  });
  const dueCosts = jobs.map((job) =>
    Float64Array.from(days, (day) => {
      if (job.notBeforeDay !== null && day < job.notBeforeDay) return impossibleCents;
      const former = input.formerDay.get(job.jobId);
      return (
        dueCostCents(job, day, rules.dueWeights) +
        (former === undefined || former === day ? 0 : rules.moveCents)
      );
    }),
  );
  const types = typeTable(technicians);
  const longest = technicians.reduce(
    (most, person) => Math.max(most, Math.floor((person.hoursPerDay * 60) / rules.cellMinutes + 1e-9)),
    0,
  );
  const mostCells = Math.min(openCells, longest);
  const out = {
    bundleGroup: [] as number[],
    bundleType: [] as number[],
    bundleJobs: [] as number[][],
    bundleFirstDay: [] as number[],
    bundleStart: [0],
    costs: [] as number[],
    bundleOtherCents: [] as number[],
    bundleOtherShop: [] as number[],
    bundleOtherDay: [] as number[],
    groupUnit: [] as number[],
  };
  const maskGroups: { jobCount: number; masks: number[] }[] = [];
  input.units.forEach((unit, u) => {
    const own = jobsOfUnit.get(unit.unitNumber) ?? [];
    const spared = days.map((day) => canBeSpared(unit, day));
    const groups = bundleGroups(
      own.map((j) => ({
        kind: jobs[j]!.job,
        fromDay: jobs[j]!.due.earliestDay - rules.bundleReachDays,
        toDay: jobs[j]!.due.latestDay + rules.bundleReachDays,
        medianDay: jobs[j]!.due.medianDay,
      })),
      rules.mostJobsPerVisit,
    );
    for (const group of groups) {
      const members = group.jobs.map((i) => own[i]!);
      const kept: number[] = [];
      const singleOther = members.map(() => 0);
      for (const mask of group.masks) {
        const chosen = members.filter((_, bit) => (mask >> bit) & 1);
        const work = chosen.map((j) => jobs[j]!);
        const cells = visitCells(work, rules);
        const fixed = fixedVisitCents(work, cells, unit, site, rules);
        const outside = cheapestOutside(input, work, unit);
        let otherCents = outside?.costCents ?? impossibleCents;
        let otherShop = outside?.shop ?? -2;
        if (chosen.length === 1) {
          const moved = input.formerDay.has(work[0]!.jobId) ? rules.moveCents : 0;
          const undone = undoneCents(work[0]!, afterDay, unit, site, rules) + moved;
          if (undone <= otherCents) [otherCents, otherShop] = [undone, -1];
          singleOther[members.indexOf(chosen[0]!)] = otherCents;
        }
        const limit = members.reduce((sum, _, bit) => sum + ((mask >> bit) & 1 ? singleOther[bit]! : 0), 0);
        const able = types.able(work);
        const line = days.map((_, d) => {
          if (!spared[d] || able.length === 0 || cells > mostCells) return impossibleCents;
          let cost = fixed;
          for (const j of chosen) cost += dueCosts[j]![d]!;
          return cost >= limit ? impossibleCents : cost;
        });
        let first = 0;
        let end = line.length;
        while (first < end && line[first]! >= impossibleCents) first++;
        while (end > first && line[end - 1]! >= impossibleCents) end--;
        if (chosen.length > 1 && first === end && otherCents >= limit) continue;
        kept.push(mask);
        out.bundleGroup.push(maskGroups.length);
        out.bundleType.push(types.index(cells, able));
        out.bundleJobs.push(chosen);
        out.bundleFirstDay.push(first);
        for (let d = first; d < end; d++) out.costs.push(line[d]!);
        out.bundleStart.push(out.costs.length);
        out.bundleOtherCents.push(otherCents);
        out.bundleOtherShop.push(otherShop);
        out.bundleOtherDay.push(otherShop >= 0 ? outside!.day : -1);
      }
      maskGroups.push({ jobCount: members.length, masks: kept });
      out.groupUnit.push(u);
    }
  });
  return {
    typeCells: Int32Array.from(types.cells),
    typeTechnicians: types.technicians.map((list) => Int32Array.from(list)),
    bundleGroup: Int32Array.from(out.bundleGroup),
    bundleType: Int32Array.from(out.bundleType),
    bundleJobs: out.bundleJobs,
    bundleFirstDay: Int32Array.from(out.bundleFirstDay),
    bundleStart: Int32Array.from(out.bundleStart),
    costs: Float64Array.from(out.costs),
    bundleOtherCents: Float64Array.from(out.bundleOtherCents),
    bundleOtherShop: Int32Array.from(out.bundleOtherShop),
    bundleOtherDay: Int32Array.from(out.bundleOtherDay),
    groupUnit: Int32Array.from(out.groupUnit),
    splits: groupSplits(maskGroups),
  };
}

function typeTable(technicians: readonly ShopTechnician[]) {
  const cells: number[] = [];
  const able: number[][] = [];
  const place = new Map<string, number>();
  return {
    cells,
    technicians: able,
    able(work: readonly DueJob[]): number[] {
      return technicians.flatMap((person, k) =>
        work.every((job) => job.skill === null || person.skills.includes(job.skill)) ? [k] : [],
      );
    },
    index(length: number, people: readonly number[]): number {
      const key = `${length}:${people.join()}`;
      let index = place.get(key);
      if (index === undefined) {
        index = cells.length;
        place.set(key, index);
        cells.push(length);
        able.push([...people]);
      }
      return index;
    },
  };
}
