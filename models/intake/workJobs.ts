import type { WorkKind } from '../schema/service.ts';
import type { Amount } from './workAmounts.ts';
import type { Entry, Segment } from './workSegment.ts';
import {
  hasOwnForeign,
  isDenied,
  isOfFluidBefore,
  isPlace,
  renewedLater,
  renewedTogether,
} from './workBeside.ts';
import { mentionsOf } from './workMentions.ts';
import { isOfItsOwn } from './workReach.ts';
import { is, thingJob, type Done, type Job } from './workThings.ts';

/** "Replaced with bolt": what stands behind "with" came along. */
const isAlong = (segment: Segment) => {
  const first = segment.parts.find(({ sign }) => sign.is === 'foreign' || sign.is === 'oily');
  const before = first === undefined ? undefined : segment.parts[segment.parts.indexOf(first) - 1];
  return before !== undefined && /\bwith(?: new| a)?$/.test(before.text);
};

/** A clause that only says what was done, to what stands in the clause before. */
const isTail = (segment: Segment) =>
  segment.entries.length === 0 &&
  segment.actions.length > 0 &&
  (!segment.hasForeign || isAlong(segment)) &&
  segment.parts.every(({ sign }) => sign.is !== 'unknown');

const isList = (segment: Segment) =>
  segment.actions.length === 0 &&
  segment.parts.every(({ sign }) =>
    [
      'thing',
      'job',
      'filler',
      'link',
      'bank',
      'amount',
      'grade',
      'number',
      'foreign',
      'oily',
      'symptom',
    ].includes(sign.is),
  );

const placeOf = (segment: Segment, at: number) =>
  segment.parts.findIndex((part) => segment.entries.some((entry) => entry.at === at && entry.part === part));

function nearest(segment: Segment, at: number): string | null {
  let best: string | null = null;
  let distance = Infinity;
  for (const { action, at: place } of segment.actions) {
    const away = Math.abs(place - at);
    if (away < distance) {
      best = action;
      distance = away;
    }
  }
  return best;
}

/** "Pulled and cleaned": what was done to a thing once it was out. */
function afterMove(segments: readonly Segment[], index: number): string | null {
  for (let on = index + 1; on < segments.length; on += 1) {
    const later = segments[on];
    if (later === undefined || later.entries.length > 0 || isDenied(later)) return null;
    const found = later.actions.find(({ action }) => action !== 'move' && action !== 'mend');
    if (found !== undefined) return later.hasForeign ? null : found.action;
  }
  return null;
}

/** The action that a thing is under: its own, that of the list it stands in, or none. */
function actionFor(segments: readonly Segment[], index: number, at: number): Done {
  const own = segments[index];
  if (own === undefined) return { action: null, inherited: false };
  const action = nearest(own, at);
  if (action === 'move') return { action: afterMove(segments, index) ?? action, inherited: false };
  if (action !== null) return { action, inherited: false };
  for (let back = index; back > 0; back -= 1) {
    const here = segments[back];
    const earlier = segments[back - 1];
    if (
      here === undefined ||
      earlier === undefined ||
      isDenied(earlier) ||
      (here.opensClause && !isList(own)) ||
      own.parts.some(({ sign }, place) => sign.is === 'symptom' && place > placeOf(own, at))
    )
      break;
    const last = earlier.actions[earlier.actions.length - 1];
    // In a list the action comes first: "replaced A, B"; after a closed job a new one begins.
    const leads = earlier.entries.every((entry) => entry.at > (last?.at ?? Infinity)) || !here.opensClause;
    if (last?.action === 'mend') break;
    if (last !== undefined && leads) return { action: last.action, inherited: true };
    if (last !== undefined || !isList(earlier)) break;
  }
  for (let on = index + 1; on < segments.length; on += 1) {
    const later = segments[on];
    if (later === undefined || isDenied(later) || (later.opensClause && !isList(own) && !isTail(later)))
      break;
    // "Engine oil and oil filter replacement", "aceite y filtro cambiados": what the job's word says of its last part.
    const isShared = isList(own) && !later.opensClause && later.entries.some(isFilterJob);
    if (isShared) return { action: 'renew', inherited: true };
    const [first] = later.actions;
    if (first !== undefined && isOfItsOwn(own, later, first)) break;
    // What is said to be worn is renewed by a word of its own, not by what befell another thing.
    if (later.entries.length > 0 && own.parts.some(({ sign }) => sign.is === 'symptom')) break;
    const closes = later.entries.every((entry) => entry.at < (first?.at ?? -1)) || !later.opensClause;
    if (first !== undefined && closes) return { action: first.action, inherited: true };
    if (first !== undefined || !isList(later)) break;
  }
  return { action: null, inherited: false };
}

const doneTo = (segments: readonly Segment[], index: number, entry: Entry): Done =>
  entry.given === null ? actionFor(segments, index, entry.at) : { action: entry.given, inherited: false };

const isDrain = /^(?:drain|refill)/;
const isBareDrain = (segment: Segment) =>
  segment.entries.length === 0 &&
  !segment.hasForeign &&
  !is(segment, 'without') &&
  segment.actions.some(({ text }) => isDrain.test(text));
const wasRenewed = /^(?:replaced|renewed|changed|swapped|ersetzt|erneuert|remplace|sostituit|wymienion)/;
/** "Tested CKP, dead", "ohmed out, replaced". */
const isFoundBad = (after: Segment | undefined) =>
  after !== undefined &&
  after.entries.length === 0 &&
  !after.hasForeign &&
  (is(after, 'symptom') || wasRenewed.test(after.parts[0]?.text ?? ''));
const isLookOrFilter = ({ part: { sign } }: Entry) =>
  sign.is === 'job'
    ? sign.works.includes('inspection')
    : sign.is === 'thing' && (sign.thing === 'filter' || sign.thing === 'bare_filter');
const isFilterJob = ({ part: { sign } }: Entry) =>
  sign.is === 'job' && sign.works.length === 1 && sign.works[0] === 'filter';

/** Only "service": it says nothing of what was done. */
const isVague = ({ part: { sign } }: Entry) => sign.is === 'job' && sign.works.includes('other');

/** All jobs that the segments of a text tell of. */
export function jobsOf(segments: readonly Segment[], amounts: readonly Amount[]): Job[] {
  const jobs: Job[] = [];
  const mentions = mentionsOf(segments);
  const { namesFilter } = mentions;
  segments.forEach((segment, index) => {
    const amountAt = segment.parts.find(({ amount }) => amount >= 0)?.amount ?? -1;
    const amount = amounts[amountAt] ?? null;
    // "Oil ok": found in order, so it was looked at.
    const isFine = segment.entries.some(
      ({ part: { sign }, dropped }) =>
        dropped === 'fine' && sign.is === 'thing' && !['engine', 'meter', 'bare_filter'].includes(sign.thing),
    );
    if (isFine) jobs.push({ work: 'inspection', sure: 0.85, segment });
    const live = segment.entries.filter(({ dropped }) => dropped === null);
    for (const entry of live) {
      const { sign, exact } = entry.part;
      if (sign.is === 'job')
        for (const work of sign.works.filter((each) => each !== entry.lacks))
          jobs.push({ work: work as WorkKind, sure: entry.sure * (exact ? 1 : 0.95), segment });
      if (sign.is === 'thing') {
        const done = doneTo(segments, index, entry);
        const isOpen = done.action === null || done.action === 'inspect';
        const isRenewedLater =
          isOpen &&
          (is(segment, 'symptom') || (done.action === 'inspect' && isFoundBad(segments[index + 1]))) &&
          (renewedLater(segments, index) || renewedTogether(segments, index));
        const isScreen = sign.thing === 'screen' || sign.thing === 'bare_screen';
        const isCleanedLater = isScreen && done.action === null && renewedLater(segments, index, 'clean');
        if (isCleanedLater) jobs.push({ work: 'screen_cleaned', sure: 0.8, segment });
        const told: Done = isRenewedLater ? { action: 'renew', inherited: true } : done;
        const job = thingJob(sign.thing, entry, told, segment, {
          ...mentions,
          amount,
        });
        if (job !== null) jobs.push(job);
      }
    }
    // "PM-A 12 gal 15W-40 2 oil filters".
    const isByGrade = amount !== null && amount.liters >= 2.5 && is(segment, 'grade');
    if (isByGrade && live.length > 0 && live.every(isLookOrFilter) && segment.actions.length === 0)
      jobs.push({ work: 'oil_change', sure: 0.8, segment });
    if (!segment.entries.every((entry) => isVague(entry) || isPlace(entry, segment))) return;
    const actions = new Set(segment.actions.map(({ action }) => action));
    // "Added a quart at 1,200 miles since last": what stands behind the job only says when.
    const isUndone = segment.parts.some(
      ({ sign }, place) =>
        sign.is === 'undone' ||
        sign.is === 'refused' ||
        (sign.is === 'ahead' && !segment.parts.slice(0, place).some((part) => part.sign.is === 'action')),
    );
    if (isUndone) return;
    const isFill =
      amount !== null ? amount.liters >= 2.5 : segment.parts.some(({ sign }) => sign.is === 'grade');
    // "Drained, refilled w/ 5 qt; filter backordered": what was not done tells of a change too.
    const before = segments[index - 1];
    const goesOn =
      before?.actions.some(({ action }) => action === 'renew') === true &&
      (!segment.opensClause || isBareDrain(before));
    // "6 qt 5W-30 and filter issued to stock": the whole list was not done.
    const after = segments[index + 1];
    const isListed = after?.opensClause === false && isDenied(after);
    // "6 gal 15W-40, drain and fill".
    const isTold =
      is(segment, 'grade') &&
      after?.entries.length === 0 &&
      after.actions.some(({ text }) => isDrain.test(text));
    const isChange =
      actions.has('renew') || (actions.size === 0 && !isListed && (namesFilter || goesOn || isTold));
    if (!hasOwnForeign(segment) && isFill && isChange) jobs.push({ work: 'oil_change', sure: 0.85, segment });
    // "Put in a litre of 5W-30": an oil by its grade, too little for a change.
    const isOilByGrade = amount !== null && segment.parts.some(({ sign }) => sign.is === 'grade');
    // "Put in some 0W-20": no amount, so less than a change.
    const isSome = segment.parts.some(({ text }) => /^(some|a bit|a little|bit|splash|drop)/.test(text));
    if (
      !segment.hasForeign &&
      isSome &&
      actions.has('fill') &&
      segment.parts.some(({ sign }) => sign.is === 'grade')
    )
      jobs.push({ work: 'top_up', sure: 0.7, segment });
    const isPutIn = actions.size === 0 || actions.has('renew') || actions.has('fill');
    if (!segment.hasForeign && isOilByGrade && !isFill && isPutIn)
      jobs.push({ work: 'top_up', sure: actions.size === 0 ? 0.6 : 0.7, segment });
    // "Coolant low, added 1 gal": of what the clause before names.
    const isOfBefore = segment.entries.length === 0 && isOfFluidBefore(segments, index);
    const isOils = !hasOwnForeign(segment) || (isOilByGrade && !is(segment, 'oily'));
    if (actions.has('top_up') && isOils && !isOfBefore)
      jobs.push({ work: 'top_up', sure: amount === null ? 0.6 : 0.9, segment });
    const sharesObject =
      segments[index + 1]?.opensClause === false &&
      (segments[index + 1]?.entries.some(({ part: { sign } }) => sign.is === 'thing') ?? false) &&
      !segment.hasForeign;
    if (
      actions.has('inspect') &&
      !segment.hasForeign &&
      [...actions].every((action) => action === 'inspect' || action === 'mend') &&
      !sharesObject
    )
      jobs.push({
        work: 'inspection',
        sure: segment.parts.some(({ sign }) => sign.is === 'unknown' || sign.is === 'symptom') ? 0.7 : 0.8,
        segment,
      });
  });
  return jobs;
}
