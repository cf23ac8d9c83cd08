import { bundleGroups } from './bundles.ts';
import { jobDayCosts, spareDays } from './dayCosts.ts';
import type { DueJob } from './dueJob.ts';
import { fixedVisitCents, undoneCents, visitCells } from './jobCost.ts';
import { cheapestOutside } from './outside.ts';
import type { ShopTechnician } from './resources.ts';
import { ableTechnicians, openCellsOf, ownBayFromDay, workCells, type SiteInput } from './siteInput.ts';
import { impossibleCents, type SiteProblem } from './siteProblem.ts';
import { groupSplits, type MaskGroup } from './splits.ts';

type Bundles = Omit<
  SiteProblem,
  'days' | 'openCells' | 'bayCount' | 'technicians' | 'technicianCells' | 'held'
>;

/** Lists the possible visits of every unit with their cost on each day and without a bay of one's own. */
export function compileBundles(input: SiteInput, days: readonly number[]): Bundles {
  const { jobs, rules, technicians, fromDay } = input;
  const openCells = openCellsOf(input.site, rules);
  const cellsOf = technicians.map((person) => workCells(person, openCells, rules));
  const jobsOfUnit = new Map<string, number[]>(input.units.map((unit) => [unit.unitNumber, []]));
  jobs.forEach((job, j) => jobsOfUnit.get(job.unitNumber)?.push(j));
  const dayCosts = jobs.map((job) => jobDayCosts(input, job));
  const types = typeTable(technicians);
  const rows: Bundle[] = [];
  const costs: number[] = [];
  const groupUnit: number[] = [];
  const maskGroups: MaskGroup[] = [];
  const unitGroups = input.units.map(() => [] as number[]);
  input.units.forEach((unit, u) => {
    const own = jobsOfUnit.get(unit.unitNumber) ?? [];
    const spare = spareDays(input, unit);
    const reach = own.map((j) => ({
      kind: jobs[j]!.job,
      fromDay: jobs[j]!.due.earliestDay - rules.bundleReachDays,
      toDay: jobs[j]!.due.latestDay + rules.bundleReachDays,
      medianDay: jobs[j]!.due.medianDay,
    }));
    for (const group of bundleGroups(reach, rules.mostJobsPerVisit)) {
      const members = group.jobs.map((i) => own[i]!);
      const singleCents = members.map(() => 0);
      const masks: number[] = [];
      for (const mask of group.masks) {
        const chosen = members.filter((_, bit) => (mask >> bit) & 1);
        const work = chosen.map((j) => jobs[j]!);
        const line = chosen.map((j) => dayCosts[j]!);
        const offer = cheapestOutside(input, work, unit, line, spare);
        const undone = chosen.length > 1 ? impossibleCents : undoneOf(input, work[0]!, u);
        const other = Math.min(undone, offer?.costCents ?? impossibleCents);
        if (chosen.length === 1) singleCents[members.indexOf(chosen[0]!)] = other;
        const most = members.reduce((sum, _, bit) => sum + ((mask >> bit) & 1 ? singleCents[bit]! : 0), 0);
        const cells = visitCells(work, rules);
        const able = ableTechnicians(technicians, work);
        const startAt = costs.length;
        let firstDay = 0;
        if (able.some((k) => cellsOf[k]! >= cells)) {
          const fixed = fixedVisitCents(work, cells, unit, input.site, rules);
          const from = Math.max(...work.map((job) => ownBayFromDay(input, job)));
          for (let d = 0; d < days.length; d++) {
            const i = days[d]! - fromDay;
            let cost = fixed;
            for (const part of line) cost += part[i]!;
            if (days[d]! < from || spare[i] === 0 || cost >= most) cost = impossibleCents;
            if (cost < impossibleCents || costs.length > startAt) costs.push(cost);
            else firstDay = d + 1;
          }
          while (costs.length > startAt && costs[costs.length - 1] === impossibleCents) costs.pop();
        }
        if (chosen.length > 1 && costs.length === startAt && other >= most) continue;
        masks.push(mask);
        rows.push({
          group: maskGroups.length,
          type: types.index(cells, able),
          jobs: chosen,
          firstDay,
          end: costs.length,
          undone,
          outsideCents: offer?.costCents ?? impossibleCents,
          outsideShop: offer?.shop ?? -1,
          outsideDay: offer?.day ?? -1,
          outsideEnd: offer?.endDay ?? -1,
        });
      }
      unitGroups[u]!.push(maskGroups.length);
      maskGroups.push({ jobCount: members.length, masks });
      groupUnit.push(u);
    }
  });
  const ints = (pick: (row: Bundle) => number) => Int32Array.from(rows, pick);
  const doubles = (pick: (row: Bundle) => number) => Float64Array.from(rows, pick);
  return {
    typeCells: Int32Array.from(types.cells),
    typeTechnicians: types.technicians.map((list) => Int32Array.from(list)),
    bundleGroup: ints((row) => row.group),
    bundleType: ints((row) => row.type),
    bundleJobs: rows.map((row) => row.jobs),
    bundleFirstDay: ints((row) => row.firstDay),
    bundleStart: Int32Array.from([0, ...rows.map((row) => row.end)]),
    costs: Float64Array.from(costs),
    bundleUndoneCents: doubles((row) => row.undone),
    bundleOutsideCents: doubles((row) => row.outsideCents),
    bundleOutsideShop: ints((row) => row.outsideShop),
    bundleOutsideDay: ints((row) => row.outsideDay),
    bundleOutsideEnd: ints((row) => row.outsideEnd),
    bundleOtherCents: doubles((row) => Math.min(row.undone, row.outsideCents)),
    groupUnit: Int32Array.from(groupUnit),
    unitGroups,
    splits: groupSplits(maskGroups),
  };
}

interface Bundle {
  readonly group: number;
  readonly type: number;
  readonly jobs: readonly number[];
  readonly firstDay: number;
  readonly end: number;
  readonly undone: number;
  readonly outsideCents: number;
  readonly outsideShop: number;
  readonly outsideDay: number;
  readonly outsideEnd: number;
}

function undoneOf(input: SiteInput, job: DueJob, unit: number): number {
  const afterDay = input.fromDay + input.weeks * 7;
  const moved = input.former.has(job.jobId) ? input.rules.moveCents : 0;
  return undoneCents(job, afterDay, input.units[unit]!, input.site, input.rules) + moved;
}

function typeTable(technicians: readonly ShopTechnician[]) {
  const cells: number[] = [];
  const able: (readonly number[])[] = [];
  const place = new Map<string, number>();
  return {
    cells,
    technicians: able,
    index(length: number, people: readonly number[]): number {
      const key = `${length}:${people.length === technicians.length ? 'all' : people.join()}`;
      let index = place.get(key);
      if (index === undefined) {
        index = cells.length;
        place.set(key, index);
        cells.push(length);
        able.push(people);
      }
      return index;
    },
  };
}
