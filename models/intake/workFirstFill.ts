import type { WorkKind } from '../schema/service.ts';
import type { Segment } from './workSegment.ts';
import type { Job } from './workThings.ts';

/** Works after which the engine's oil is filled as part of them. */
export const opensEngine: ReadonlySet<WorkKind> = new Set(['engine', 'timing_set']);
const fillWord =
  /fill|^put|^add|^fitted$|^pour|^in$|^dump|^primed|rempl|fyl|gefull|gevuld|napl|zali|zalan|llen|riemp|umpl|dold/;

/** "Timing set fitted, filled with 6 l": the first fill belongs to the work that opened the engine. */
export const isFirstFill = ({ entries, actions, parts }: Segment) =>
  parts.some(({ sign }) => sign.is === 'amount' || sign.is === 'grade') &&
  entries.every(
    ({ part: { sign } }) => sign.is === 'thing' && (sign.thing === 'oil' || sign.thing === 'engine'),
  ) &&
  actions.every(({ text }) => fillWord.test(text));

/** Jobs without the fill that belongs to the work that opened the engine. */
export function withoutFirstFill(jobs: readonly Job[]): readonly Job[] {
  const opened = jobs.filter(({ work }) => opensEngine.has(work));
  if (opened.length === 0 || jobs.some(({ work }) => work === 'filter')) return jobs;
  return jobs.filter(
    ({ work, segment }) =>
      (work !== 'oil_change' && work !== 'top_up') ||
      !(isFirstFill(segment) || opened.some((job) => job.segment === segment)),
  );
}
