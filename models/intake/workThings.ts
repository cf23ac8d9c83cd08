import type { WorkKind } from '../schema/service.ts';
import type { Amount } from './workAmounts.ts';
import type { Entry, Segment } from './workSegment.ts';

/** A job read out of a text. */
export interface Job {
  readonly work: WorkKind;
  readonly sure: number;
  readonly segment: Segment;
}

/** What a thing is under. */
export interface Done {
  readonly action: string | null;
  /** taken over from a segment beside */
  readonly inherited: boolean;
}

/** What the whole text says beside the thing. */
export interface TextAround {
  readonly mentionsOil: boolean;
  /** an oil of another part is named: gearbox, hydraulics */
  readonly mentionsOily: boolean;
  /** a filter is named beside the oil, or lube beside oil: the two are only named together when both were changed */
  readonly isOilAndFilter: boolean;
  readonly amount: Amount | null;
  /** other pieces of a timing drive are named */
  readonly mentionsTiming: boolean;
  /** an oil control solenoid is named */
  readonly mentionsSolenoid: boolean;
  /** a phaser or another piece of the cam timing is named */
  readonly mentionsVariableTiming: boolean;
}

const renewed: Readonly<Record<string, readonly [WorkKind, number]>> = {
  oil: ['oil_change', 1],
  filter: ['filter', 1],
  timing_set: ['timing_set', 1],
  bare_timing: ['timing_set', 0.65],
  bare_chain: ['timing_set', 0.87],
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

/** An engine that was not in the vehicle before. */
const otherEngine =
  /used|reman|recon|crate|junkyard|salvage|exchange|replacement|donor|rebuilt|long ?block|short block|tausch|\bat motor|ruil|wissel|byte|occasion|echange|austausch|long motor|desguace|segunda|revision|usato|uzyw/;

export const is = (segment: Segment, sign: string) => segment.parts.some((part) => part.sign.is === sign);

const whyWord = /^(due to|because|because of|reason|cause|caused by|wegen)$/;

/** It is said to be worn, other than as the reason of what was done: "phasers due to rattle". */
const isWorn = ({ parts }: Segment) =>
  parts.some(
    ({ sign }, at) =>
      sign.is === 'symptom' && !parts.slice(Math.max(0, at - 3), at).some(({ text }) => whyWord.test(text)),
  );

const notOfFilter: ReadonlySet<string | null> = new Set(['clean', 'inspect', 'mend', 'move', 'top_up']);
const notOfOil: ReadonlySet<string | null> = new Set(['clean', 'mend', 'move']);

/** What was done to another thing of the list, as no one does it to this one. */
const isElse = (thing: string, action: string | null, { isOilAndFilter }: TextAround) =>
  thing === 'filter' || thing === 'bare_filter'
    ? notOfFilter.has(action)
    : thing === 'oil' &&
      (notOfOil.has(action) || (isOilAndFilter && (action === 'inspect' || action === 'top_up')));

/** No little amount: "put oil and a filter in". */
const isFill = ({ amount }: TextAround) => amount === null || amount.liters >= 2.5;

/** The job that a thing under an action tells of; null for none of ours. */
export function thingJob(
  thing: string,
  entry: Entry,
  done: Done,
  segment: Segment,
  around: TextAround,
): Job | null {
  // "Oil, filter, washed": only what stands beside it is done to a filter.
  if (done.inherited && isElse(thing, done.action, around))
    return thingJob(thing, entry, { action: null, inherited: false }, segment, around);
  const sure = entry.sure * (done.inherited ? 0.97 : 1) * (entry.part.exact ? 1 : 0.95);
  const job = (work: WorkKind, factor: number): Job => ({ work, sure: sure * factor, segment });
  if (done.action === 'inspect') {
    // An engine under inspection beside other things only says where they are.
    return thing === 'engine' && (segment.hasForeign || segment.entries.length > 1 || done.inherited)
      ? null
      : job('inspection', thing === 'meter' || thing === 'engine' ? 0.7 : 0.9);
  }
  if (thing === 'bare_filter') {
    if (done.action !== 'renew' && done.action !== null) return null;
    if (!around.mentionsOil && around.mentionsOily) return null;
    return around.mentionsOil ? job('filter', 0.95) : segment.hasForeign ? null : job('filter', 0.55);
  }
  // Beside hydraulic oil a strainer is the hydraulics'.
  if (thing === 'screen' && around.mentionsOily && /strainer|suction/.test(entry.part.text)) return null;
  if (thing === 'oil_leak' || thing === 'timing_check') return null;
  if (thing === 'bare_solenoid') {
    const isOurs = around.mentionsSolenoid || around.mentionsVariableTiming;
    return isOurs && (done.action === 'renew' || done.action === null)
      ? job('oil_control_solenoid', 0.9)
      : null;
  }
  if (thing === 'engine' || thing === 'meter') {
    const isAlone =
      !segment.hasForeign &&
      segment.entries.every(({ part: { sign } }) => sign.is === 'thing' && sign.thing === thing);
    const found = renewed[thing];
    // "Refilled engine": with oil.
    const isFilled =
      segment.actions.length > 0 && segment.actions.every(({ text }) => /fill|drain|servic/.test(text));
    if (thing === 'engine' && done.action === 'top_up' && isAlone && /^(engine|motor)$/.test(entry.part.text))
      return job('top_up', 0.8);
    if (thing === 'engine' && isFilled) return null;
    // "Swapped engine, odo 142,880": a reading.
    if (thing === 'meter' && done.inherited && is(segment, 'number') && !is(segment, 'symptom')) return null;
    if (thing === 'engine' && isAlone && done.action === null && otherEngine.test(entry.part.text))
      return is(segment, 'symptom') ? null : job('engine', 0.8);
    return done.action === 'renew' && isAlone && found !== undefined ? job(found[0], found[1]) : null;
  }
  if (thing === 'oil_level') return done.action === 'top_up' ? job('top_up', 0.97) : null;
  if (thing === 'bare_screen') {
    if (done.action === 'clean') return job('screen_cleaned', around.mentionsSolenoid ? 1 : 0.8);
    return done.action === 'renew' && around.mentionsSolenoid ? job('screen_cleaned', 0.8) : null;
  }
  if (thing === 'bare_chain' && done.action === null)
    return around.mentionsTiming && !is(segment, 'symptom') ? job('timing_set', 0.86) : null;
  const own = namedMeansRenewed.has(thing) ? (thing as WorkKind) : null;
  switch (done.action) {
    case 'renew': {
      const found = renewed[thing];
      return found === undefined ? null : job(...found);
    }
    case 'top_up':
      return thing === 'oil' ? job('top_up', 1) : own === null ? null : job(own, 0.6);
    case 'fill':
      // "Put a thermostat in": only oil is filled.
      if (thing === 'oil')
        return around.isOilAndFilter && isFill(around) ? job('oil_change', 0.8) : job('top_up', 0.6);
      return own === null ? null : job(own, 0.9);
    case 'clean':
      if (thing === 'screen') return job('screen_cleaned', 1);
      return thing === 'oil_control_solenoid' ? job('screen_cleaned', 0.86) : null;
    case 'move':
      return null;
    case 'mend':
      return own !== null && thing !== 'filter' ? job(own, 0.5) : null;
    default:
      // What is only said to be worn or noisy was not renewed yet.
      if (isWorn(segment)) return null;
      if (thing !== 'oil') return own === null ? null : job(own, 0.86);
      if (around.isOilAndFilter) return job('oil_change', 0.9);
      if (around.amount === null) return null;
      return around.amount.liters >= 2.5 ? job('oil_change', 0.75) : job('top_up', 0.65);
  }
}
