import type { WorkKind } from '../schema/service.ts';
import type { UnitHistory } from '../schema/history.ts';
import { dayFromIso } from '../schema/day.ts';

/** Works that fit parts whose issue decides how long the timing drive lasts. */
const drivingWorks: ReadonlySet<WorkKind> = new Set(['timing_set', 'phaser', 'tensioner_guides', 'belt']);

/** Issue of the timing parts that were fitted on a day, as written on the record; null where none is. */
export function issueFitted({ services }: UnitHistory, day: number): string | null {
  for (const { servicedOn, partRevision, read } of services) {
    const issue = (partRevision ?? '').trim().toLowerCase();
    if (issue !== '' && dayFromIso(servicedOn) === day && read.works.some((work) => drivingWorks.has(work)))
      return issue;
  }
  return null;
}
