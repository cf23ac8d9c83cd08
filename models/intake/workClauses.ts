import type { Part } from './workSigns.ts';

/** A stretch of a work text between joining words: what it names and what was done to it. */
export interface Segment {
  readonly parts: readonly Part[];
  /** a comma or the like stands before it, not just "and" */
  readonly opensClause: boolean;
  readonly entries: Entry[];
  readonly actions: { readonly action: string; readonly at: number; readonly text: string }[];
  /** it names something that is none of ours */
  readonly hasForeign: boolean;
}

/** A job or thing that is named. */
export interface Entry {
  readonly part: Part;
  /** position in the whole text */
  readonly at: number;
  /** a word beside it says that nothing was done, or makes it another thing */
  dropped: 'undone' | 'foreign' | null;
  /** 0..1, lowered by words beside it that are not understood */
  sure: number;
}

const isNamed = (part: Part) => ['job', 'thing', 'foreign', 'oily'].includes(part.sign.is);

/** Cuts a text into segments. */
export function segmentsOf(parts: readonly Part[]): Segment[] {
  const segments: Segment[] = [];
  let begin = 0;
  let opens = true;
  const close = (end: number) => {
    const inside = parts.slice(begin, end);
    if (inside.length === 0) return;
    const entries: Entry[] = [];
    const actions: { action: string; at: number; text: string }[] = [];
    inside.forEach((part, offset) => {
      const { sign } = part;
      const at = begin + offset;
      if (sign.is === 'job') entries.push({ part, at, dropped: null, sure: sign.sure });
      if (sign.is === 'thing') entries.push({ part, at, dropped: null, sure: 0.94 });
      if (sign.is === 'action') actions.push({ action: sign.action, at, text: part.text });
    });
    const hasForeign = inside.some(({ sign }) => sign.is === 'foreign' || sign.is === 'oily');
    segments.push({ parts: inside, opensClause: opens, entries, actions, hasForeign });
    opens = false;
  };
  parts.forEach((part, at) => {
    if (part.sign.is !== 'stop' && part.sign.is !== 'join') return;
    close(at);
    if (part.sign.is === 'stop') opens = true;
    begin = at + 1;
  });
  close(parts.length);
  return segments;
}

/** English puts what it is after what it is of: an oil pressure gizmo is no oil. */
const englishHead =
  /\b(oil|chains?|belt|phasers?|engine|filter|timing|cam|thermostat|pcv|ocv|solenoids?|sensors?|valve|tensioners?|guides?|screens?|lof|lube|change|service)$/;
const noAfter = /\b(coolant|antifreeze|brake|refrigerante|kuhlmittel)\b/;

function beside(parts: readonly Part[], at: number, step: 1 | -1, over: readonly string[]): Part | undefined {
  let next = at + step;
  while (parts[next] !== undefined && over.includes(parts[next]?.sign.is ?? '')) next += step;
  return parts[next];
}

/** Drops what turns out to be part of another thing: gearbox oil, oil filter housing, timing chain cover. */
export function dropCompounds(parts: readonly Part[], segments: readonly Segment[]): void {
  for (const { entries } of segments)
    for (const entry of entries) {
      const { sign, text } = entry.part;
      const works = sign.is === 'job' ? sign.works : [];
      const isOil =
        works.includes('oil_change') ||
        works.includes('filter') ||
        works.includes('top_up') ||
        (sign.is === 'thing' &&
          (sign.thing === 'oil' || sign.thing === 'filter' || sign.thing === 'bare_filter'));
      const before = beside(parts, entry.at, -1, ['link', 'filler']);
      const after = beside(parts, entry.at, 1, []);
      const english = englishHead.test(text);
      const afterLink = after?.sign.is === 'link' ? beside(parts, entry.at, 1, ['link', 'filler']) : after;
      if (isOil && before?.sign.is === 'oily') entry.dropped = 'foreign';
      if (
        isOil &&
        afterLink?.sign.is === 'oily' &&
        !noAfter.test(afterLink.text) &&
        (after?.sign.is === 'link' || !english)
      )
        entry.dropped = 'foreign';
      if (isOil && after?.sign.is === 'oily' && english) entry.sure *= 0.65;
      if (sign.is === 'job' || !english) continue;
      if (after?.sign.is === 'foreign' && !/^(belt|belts|tires?|tyres?)$/.test(after.text))
        entry.dropped = 'foreign';
      if (after?.sign.is === 'unknown' || after?.sign.is === 'plain') entry.sure *= 0.6;
    }
}

/** Clauses as ranges of segments: each begins where one opens a clause. */
function clausesOf(segments: readonly Segment[]): Segment[][] {
  const clauses: Segment[][] = [];
  for (const segment of segments)
    if (segment.opensClause || clauses.length === 0) clauses.push([segment]);
    else clauses[clauses.length - 1]?.push(segment);
  return clauses;
}

function dropBackwards(segments: readonly Segment[], at: number): void {
  for (let index = segments.length - 1; index >= 0; index -= 1) {
    const segment = segments[index];
    const before = segment?.entries.filter((entry) => entry.at < at) ?? [];
    if (segment === undefined || before.length === 0) continue;
    for (const entry of before) entry.dropped ??= 'undone';
    // "oil and filter not changed": what has no action of its own goes with it.
    const earlier = segments[index - 1];
    if (segment.opensClause || earlier === undefined || earlier.actions.length > 0) return;
  }
}

/** Drops what a word beside it says was not done: declined, due, next, without. */
export function dropUndone(parts: readonly Part[], segments: readonly Segment[]): void {
  const clauses = clausesOf(segments);
  clauses.forEach((clause, clauseAt) => {
    const all = clause.flatMap(({ entries }) => entries);
    const places = clause.flatMap((segment) =>
      segment.parts.map((part) => ({ part, at: parts.indexOf(part), segment })),
    );
    let isAhead = false;
    for (const { part, at, segment } of places) {
      const { is } = part.sign;
      if (is === 'without')
        for (const entry of segment.entries) if (entry.at > at) entry.dropped ??= 'undone';
      if (is === 'ahead') {
        isAhead = true;
        for (const entry of all) if (entry.at > at) entry.dropped ??= 'undone';
      }
      if ((is !== 'undone' && is !== 'refused') || isAhead) continue;
      if (places.some((place) => place.at > at && isNamed(place.part))) {
        for (const entry of all) if (entry.at > at) entry.dropped ??= 'undone';
      } else if (places.some((place) => place.at < at && isNamed(place.part))) dropBackwards(clause, at);
      else if (is === 'refused') dropBackwards(clauses[clauseAt - 1] ?? [], at);
    }
  });
}
