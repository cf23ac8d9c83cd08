import type { WorkKind } from '../schema/service.ts';
import type { Segment } from './workSegment.ts';
import type { Job } from './workThings.ts';

/** Works after which the engine's oil is filled as part of them. */
export const opensEngine: ReadonlySet<WorkKind> = new Set(['engine', 'timing_set']);
const fillWord =
  /fill|^put|^add|^fitted$|^pour|^in$|^dump|^primed|rempl|fyl|gefull|gevuld|napl|zali|zalan|llen|riemp|umpl|dold|^plein/;

/** "Timing set fitted, filled with 6 l": the first fill belongs to the work that opened the engine. */
export const isFirstFill = ({ entries, actions, parts }: Segment) =>
  parts.some(({ sign }) => sign.is === 'amount' || sign.is === 'grade') &&
  entries.every(
    ({ part: { sign } }) => sign.is === 'thing' && (sign.thing === 'oil' || sign.thing === 'engine'),
  ) &&
  actions.every(({ text }) => fillWord.test(text));

/** Works on the front of an engine: only a fill said to be one belongs to them. */
export const opensFront: ReadonlySet<WorkKind> = new Set(['belt', 'phaser', 'tensioner_guides']);
const backIn = /fill|eingefullt|rempli|refill|back in$/;
const isRefill = (segment: Segment) =>
  isFirstFill(segment) &&
  segment.entries.every(({ part: { sign } }) => sign.is === 'thing' && sign.thing === 'oil') &&
  segment.parts.some(({ text }) => backIn.test(text)) &&
  !segment.parts.some(({ text }) => /^(?:drain|new|fresh)/.test(text));

const ofTheOil = /\b(?:drain|drained|changed?|(?:new|fresh) (?:#|(?:engine |motor )?oil(?! filter)))/;
/** "Long block installed, 7 qts 5W-30, new filter": an amount without a word of the oil. */
const isBareFill = ({ segment: { parts, entries } }: Job) =>
  parts.some(({ sign }) => sign.is === 'amount' || sign.is === 'grade') &&
  !ofTheOil.test(parts.map(({ text }) => text).join(' ')) &&
  entries.every(({ part: { sign } }) => sign.is === 'thing' && /filter$/.test(sign.thing));

/** Jobs without the fill that belongs to the work that opened the engine. */
export function withoutFirstFill(jobs: readonly Job[]): readonly Job[] {
  const opened = jobs.filter(({ work }) => opensEngine.has(work));
  if (jobs.some(({ work }) => work === 'filter'))
    return opened.length === 0 ? jobs : jobs.filter((job) => job.work !== 'oil_change' || !isBareFill(job));
  if (opened.length === 0 && jobs.some(({ work }) => opensFront.has(work)))
    return jobs.filter(
      ({ work, segment }) => (work !== 'oil_change' && work !== 'top_up') || !isRefill(segment),
    );
  if (opened.length === 0) return jobs;
  return jobs.filter(
    ({ work, segment }) =>
      (work !== 'oil_change' && work !== 'top_up') ||
      !(isFirstFill(segment) || opened.some((job) => job.segment === segment)),
  );
}
