import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import { partOfExposure } from '../oil/condition.ts';
import type { Exposure, OilEngine, OilFill } from '../oil/exposure.ts';
import type { Renewal } from './states.ts';

/** What was filled and into what, for one charge. */
export interface FillAndEngine {
  readonly fill: OilFill;
  readonly engine: OilEngine;
}
export type FillOf = (charge: OilCharge) => FillAndEngine;

/** Bits of what is renewed before a segment, by bank; `opened`: covers came off for timing work. */
export const reset = {
  chain1: 1,
  chain2: 2,
  phaser1: 4,
  phaser2: 8,
  sludge: 16,
  screen: 32,
  opened: 64,
} as const;

/** A part of a charge between two days on which something is known or done; the steps of the wear calculation. */
export interface Segment {
  readonly fromDay: number;
  readonly toDay: number;
  /** place of the charge in the timeline; -1 for the unrecorded life before it */
  readonly chargeIndex: number;
  readonly exposure: Exposure;
  readonly fillAndEngine: FillAndEngine;
  readonly startsCharge: boolean;
  readonly endsCharge: boolean;
  /** share of the charge that this segment is, 0..1 */
  readonly share: number;
  /** litres topped up at the end */
  readonly topUpLiters: number;
  /** charges of the same kind that this stands for; 1 but for the unrecorded life */
  readonly repeat: number;
  /** bits of {@link reset} applied before it */
  readonly resets: number;
}

/** Life before the first record, as like charges repeated. */
export interface UnrecordedLife {
  readonly exposure: Exposure;
  readonly charges: number;
  readonly charge: OilCharge;
}

/**
 * Cuts a timeline at drains, top-ups, evidence and renewals.
 * @param marks days on which a state is wanted; those outside the timeline are left out
 * @returns segments in order; the last one ends on the as-of day
 */
export function segmentsOf(
  timeline: UnitTimeline,
  fillOf: FillOf,
  marks: Iterable<number>,
  renewals: readonly Renewal[],
  unrecorded: UnrecordedLife | null,
): readonly Segment[] {
  const cuts = new Set<number>(marks);
  for (const renewal of renewals) cuts.add(renewal.day);
  for (const charge of timeline.charges) for (const topUp of charge.topUps) cuts.add(topUp.day);
  const sorted = [...cuts].sort((a, b) => a - b);
  const segments: Segment[] = [];
  if (unrecorded !== null) segments.push(lifeSegment(unrecorded, timeline, fillOf));
  timeline.charges.forEach((charge, index) => cutCharge(charge, index, timeline, fillOf, sorted, segments));
  return withResets(segments, renewals, timeline.asOfDay);
}

function lifeSegment(life: UnrecordedLife, timeline: UnitTimeline, fillOf: FillOf): Segment {
  const start = timeline.charges[0].startDay;
  return {
    fromDay: Math.min(timeline.inServiceDay ?? start, start),
    toDay: start,
    chargeIndex: -1,
    exposure: life.exposure,
    fillAndEngine: fillOf(life.charge),
    startsCharge: true,
    endsCharge: true,
    share: 1,
    topUpLiters: 0,
    repeat: life.charges,
    resets: 0,
  };
}

function cutCharge(
  charge: OilCharge,
  chargeIndex: number,
  timeline: UnitTimeline,
  fillOf: FillOf,
  sortedCuts: readonly number[],
  into: Segment[],
): void {
  const fillAndEngine = fillOf(charge);
  const ends = sortedCuts.filter((day) => day > charge.startDay && day < charge.endDay);
  ends.push(charge.endDay);
  const shareAt = shareOfCharge(charge, timeline);
  let fromDay = charge.startDay;
  let fromShare = 0;
  ends.forEach((toDay, i) => {
    const endsCharge = i === ends.length - 1;
    const toShare = endsCharge ? 1 : Math.max(fromShare, shareAt(toDay));
    const share = toShare - fromShare;
    let topUpLiters = 0;
    for (const topUp of charge.topUps) if (topUp.day === toDay && !endsCharge) topUpLiters += topUp.liters;
    into.push({
      fromDay,
      toDay,
      chargeIndex,
      exposure: ends.length === 1 ? charge.exposure : partOfExposure(charge.exposure, share),
      fillAndEngine,
      startsCharge: i === 0,
      endsCharge,
      share,
      topUpLiters,
      repeat: 1,
      resets: 0,
    });
    fromDay = toDay;
    fromShare = toShare;
  });
}

/** How far through a charge a day lies, by distance where the meters tell it, else by days. */
export function shareOfCharge(charge: OilCharge, timeline: UnitTimeline): (day: number) => number {
  const days = Math.max(1, charge.endDay - charge.startDay);
  const start = timeline.metersAt(charge.startDay)?.odometerKm ?? null;
  const end = timeline.metersAt(charge.endDay)?.odometerKm ?? null;
  const known = start !== null && end !== null && end > start;
  return (day) => {
    const at = known ? (timeline.metersAt(day)?.odometerKm ?? null) : null;
    const share = at === null ? (day - charge.startDay) / days : (at - start!) / (end! - start!);
    return Math.min(1, Math.max(0, share));
  };
}

function bitsOf(renewal: Renewal): number {
  const first = renewal.bank !== '2';
  const second = renewal.bank !== '1';
  const chain = (first ? reset.chain1 : 0) | (second ? reset.chain2 : 0);
  const phaser = (first ? reset.phaser1 : 0) | (second ? reset.phaser2 : 0);
  switch (renewal.part) {
    case 'engine':
      return reset.chain1 | reset.chain2 | reset.phaser1 | reset.phaser2 | reset.sludge | reset.screen;
    case 'timing_set':
      return chain | phaser | reset.opened;
    case 'phaser':
      return phaser | reset.opened;
    case 'screen':
    case 'oil_control_solenoid':
      return reset.screen;
    default:
      return 0;
  }
}

function withResets(segments: Segment[], renewals: readonly Renewal[], asOfDay: number): readonly Segment[] {
  if (segments.length === 0) return segments;
  const bits = new Array<number>(segments.length + 1).fill(0);
  for (const renewal of renewals) {
    if (renewal.day > asOfDay) continue;
    // a part renewed on the last day leaves the unit renewed: a segment without exposure carries it
    const place = segments.findIndex((segment) => segment.chargeIndex >= 0 && segment.fromDay >= renewal.day);
    bits[place < 0 ? segments.length : place] |= bitsOf(renewal);
  }
  const marked = segments.map((segment, i) => (bits[i] === 0 ? segment : { ...segment, resets: bits[i] }));
  if (bits[segments.length] === 0) return marked;
  const last = segments[segments.length - 1];
  return [
    ...marked,
    {
      ...last,
      fromDay: last.toDay,
      exposure: partOfExposure(last.exposure, 0),
      startsCharge: false,
      share: 0,
      resets: bits[segments.length],
    },
  ];
}
