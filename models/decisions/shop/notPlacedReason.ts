import { isoFromDay } from '../../schema/day.ts';
import type { NotPlacedCode } from '../../schema/shopPlan.ts';
import type { DueJob, ShopInputs, ShopUnit } from './shopInputs.ts';
import type { LaneTable } from './laneTable.ts';
import { visitLength } from './visitCost.ts';
import { canBeSpared } from './weekCalendar.ts';

/**
 * Why a job has no place: the first thing that rules every day out, else that others need the room more.
 * @param costs cost of a visit of its own by open day; Infinity = can't be, or dearer than leaving it
 */
export function notPlacedReason(
  inputs: ShopInputs,
  table: LaneTable,
  unit: ShopUnit,
  job: DueJob,
  ready: ReadonlyMap<string, number>,
  costs: Float64Array,
): { readonly code: NotPlacedCode; readonly reason: string } {
  const { site } = unit;
  const endDay = inputs.fromDay + 7 * inputs.weeks - 1;
  if (table.lanes.length === 0)
    return { code: 'no_capacity', reason: `${site} has no bay with a technician in it within the plan` };
  const skill = job.skill === null ? -1 : table.skills.indexOf(job.skill);
  if (skill >= 0 && !table.laneSkills.some((bits) => ((bits >> skill) & 1) === 1))
    return { code: 'no_skill', reason: `nobody at work in ${site} can do ${job.skill}` };
  const length = visitLength([job], table.dayCells, inputs.rules);
  const day = (table.dayCells * inputs.rules.cellMinutes) / 60;
  if (length.fullDays >= inputs.rules.mostDays)
    return {
      code: 'too_long',
      reason: `${job.hours} h is longer than ${inputs.rules.mostDays} working days of ${day} h`,
    };
  const partsDay = Math.max(ready.get(job.jobId) ?? 0, job.notBeforeDay ?? 0);
  if (partsDay === Infinity) return { code: 'parts_never', reason: 'its parts can not be had' };
  if (partsDay > endDay)
    return {
      code: 'parts_late',
      reason: `it can not be done before ${isoFromDay(partsDay)}, after the end of the plan`,
    };
  const spared = (d: number) => {
    for (let k = d; k <= d + length.fullDays; k++)
      if (k >= table.days.length || !canBeSpared(unit, table.days[k])) return false;
    return true;
  };
  const open = table.days.map((_, d) => d).filter((d) => table.days[d] >= partsDay);
  if (!open.some(spared))
    return {
      code: 'unit_not_spared',
      reason: 'the unit can not be spared on any day on which it could be done',
    };
  if (costs.some((cents) => cents < Infinity))
    return { code: 'no_room', reason: `the hours that it needs in ${site} are worth more to other jobs` };
  if (!open.some((d) => spared(d) && anyLane(table, length.lastCells, length.fullDays, d)))
    return {
      code: 'too_long',
      reason: `no technician in ${site} has ${job.hours} h in one stretch on a day that fits`,
    };
  return { code: 'later', reason: 'doing it after the plan costs no more' };
}

function anyLane(table: LaneTable, lastCells: number, fullDays: number, day: number): boolean {
  for (let lane = table.laneStart[day]; lane < table.laneStart[day + 1]; lane++)
    if (table.laneCells[lane] >= (fullDays > 0 ? table.dayCells : lastCells)) return true;
  return false;
}
