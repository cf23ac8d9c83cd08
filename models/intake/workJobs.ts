import type { WorkKind } from '../schema/service.ts';
import type { Amount } from './workAmounts.ts';
import type { Entry, Segment } from './workClauses.ts';

/** A job read out of a text. */
export interface Job {
  readonly work: WorkKind;
  readonly sure: number;
  readonly segment: Segment;
}

interface Done {
  readonly action: string | null;
  /** taken over from a segment beside */
  readonly inherited: boolean;
}

const isList = (segment: Segment) =>
  segment.actions.length === 0 &&
  segment.parts.every(({ sign }) =>
    ['thing', 'job', 'filler', 'link', 'bank', 'amount', 'grade', 'number', 'foreign'].includes(sign.is),
  );

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

/** The action that a thing is under: its own, that of the list it stands in, or none. */
function actionFor(segments: readonly Segment[], index: number, at: number): Done {
  const own = segments[index];
  if (own === undefined) return { action: null, inherited: false };
  const action = nearest(own, at);
  if (action !== null) return { action, inherited: false };
  for (let back = index; back > 0; back -= 1) {
    const here = segments[back];
    const earlier = segments[back - 1];
    if (here === undefined || earlier === undefined || (here.opensClause && !isList(own))) break;
    const last = earlier.actions[earlier.actions.length - 1];
    // In a list the action comes first: "replaced A, B"; after a closed job a new one begins.
    const leads = earlier.entries.every((entry) => entry.at > (last?.at ?? Infinity)) || !here.opensClause;
    if (last !== undefined && leads) return { action: last.action, inherited: true };
    if (last !== undefined || !isList(earlier)) break;
  }
  for (let on = index + 1; on < segments.length; on += 1) {
    const later = segments[on];
    if (later === undefined || (later.opensClause && !isList(own))) break;
    const [first] = later.actions;
    const closes = later.entries.every((entry) => entry.at < (first?.at ?? -1)) || !later.opensClause;
    if (first !== undefined && closes) return { action: first.action, inherited: true };
    if (first !== undefined || !isList(later)) break;
  }
  return { action: null, inherited: false };
}

const renewed: Readonly<Record<string, readonly [WorkKind, number]>> = {
  oil: ['oil_change', 1],
  filter: ['filter', 1],
  timing_set: ['timing_set', 1],
  bare_timing: ['timing_set', 0.65],
  phaser: ['phaser', 1],
  oil_control_solenoid: ['oil_control_solenoid', 1],
  screen: ['screen_cleaned', 0.8],
  tensioner_guides: ['tensioner_guides', 1],
  belt: ['belt', 1],
  cam_sensor: ['cam_sensor', 1],
  crank_sensor: ['crank_sensor', 1],
  ventilation_valve: ['ventilation_valve', 1],
  thermostat: ['thermostat', 1],
  engine: ['engine', 0.98],
  meter: ['meter_replaced', 1],
};

/** Things that a line of history only names when they were renewed. */
const namedMeansRenewed = new Set([
  'filter',
  'timing_set',
  'phaser',
  'oil_control_solenoid',
  'tensioner_guides',
  'belt',
  'cam_sensor',
  'crank_sensor',
  'ventilation_valve',
  'thermostat',
]);

function thingJob(
  thing: string,
  entry: Entry,
  done: Done,
  segment: Segment,
  mentionsOil: boolean,
  amount: Amount | null,
): Job | null {
  const sure = entry.sure * (done.inherited ? 0.97 : 1) * (entry.part.exact ? 1 : 0.95);
  const job = (work: WorkKind, factor: number): Job => ({ work, sure: sure * factor, segment });
  if (thing === 'bare_filter') {
    if (done.action === 'inspect') return job('inspection', 0.9);
    if (done.action !== 'renew' && done.action !== null) return null;
    return job('filter', mentionsOil ? 0.95 : 0.55);
  }
  if (thing === 'engine' || thing === 'meter') {
    const own = segment.entries.length === 1 && !segment.hasForeign;
    if (done.action === 'inspect' && own) return job('inspection', 0.9);
    const found = renewed[thing];
    return done.action === 'renew' && own && found !== undefined ? job(found[0], found[1]) : null;
  }
  switch (done.action) {
    case 'renew': {
      const found = renewed[thing];
      return found === undefined ? null : job(...found);
    }
    case 'top_up':
      return thing === 'oil'
        ? job('top_up', 1)
        : namedMeansRenewed.has(thing)
          ? job(thing as WorkKind, 0.6)
          : null;
    case 'clean':
      if (thing === 'screen') return job('screen_cleaned', 1);
      return thing === 'oil_control_solenoid' ? job('screen_cleaned', 0.86) : null;
    case 'inspect':
      return job('inspection', 0.9);
    case 'mend':
      return namedMeansRenewed.has(thing) && thing !== 'filter' ? job(thing as WorkKind, 0.5) : null;
    default:
      if (thing === 'oil') {
        if (amount === null) return null;
        return amount.liters >= 2.5 ? job('oil_change', 0.75) : job('top_up', 0.65);
      }
      return namedMeansRenewed.has(thing) ? job(thing as WorkKind, 0.86) : null;
  }
}

const isOilText = (segments: readonly Segment[]) =>
  segments.some(({ entries }) =>
    entries.some(
      ({ part: { sign }, dropped }) =>
        dropped === null &&
        ((sign.is === 'thing' && (sign.thing === 'oil' || sign.thing === 'filter')) ||
          (sign.is === 'job' && sign.works.some((work) => work === 'oil_change' || work === 'filter'))),
    ),
  );

/** All jobs that the segments of a text tell of. */
export function jobsOf(segments: readonly Segment[], amounts: readonly Amount[]): Job[] {
  const jobs: Job[] = [];
  const mentionsOil = isOilText(segments);
  segments.forEach((segment, index) => {
    const amountAt = segment.parts.find(({ amount }) => amount >= 0)?.amount ?? -1;
    const amount = amounts[amountAt] ?? null;
    const live = segment.entries.filter(({ dropped }) => dropped === null);
    for (const entry of live) {
      const { sign, exact } = entry.part;
      if (sign.is === 'job')
        for (const work of sign.works)
          jobs.push({ work: work as WorkKind, sure: entry.sure * (exact ? 1 : 0.95), segment });
      if (sign.is === 'thing') {
        const job = thingJob(
          sign.thing,
          entry,
          actionFor(segments, index, entry.at),
          segment,
          mentionsOil,
          amount,
        );
        if (job !== null) jobs.push(job);
      }
    }
    if (segment.entries.length > 0) return;
    const actions = new Set(segment.actions.map(({ action }) => action));
    const isUndone = segment.parts.some(({ sign }) =>
      ['undone', 'refused', 'ahead', 'without'].includes(sign.is),
    );
    if (isUndone) return;
    if (actions.has('top_up') && !segment.hasForeign)
      jobs.push({ work: 'top_up', sure: amount === null ? 0.6 : 0.9, segment });
    const sharesObject =
      segments[index + 1]?.opensClause === false &&
      (segments[index + 1]?.entries.length ?? 0) > 0 &&
      !segment.hasForeign;
    if (actions.has('inspect') && actions.size === 1 && !sharesObject)
      jobs.push({ work: 'inspection', sure: segment.hasForeign ? 0.88 : 0.8, segment });
  });
  return jobs;
}
