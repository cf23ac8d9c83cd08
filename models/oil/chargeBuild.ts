import type { UnitHistory } from '../schema/history.ts';
import type { OilCharge, TopUp } from './charge.ts';
import type { Drain, OilEvents } from './chargeDrains.ts';
import { faultsDuring, oilFaults } from './chargeFaults.ts';
import { hiddenInGap, type GapEvidence } from './chargeGaps.ts';
import { spanKnowledge, type KnownDays } from './chargeSpread.ts';
import type { MeterSeries } from './meterSeries.ts';
import { dayOf } from './usageDay.ts';
import { columnOn } from './usageEnds.ts';
import { cutExposure, type UsageStory } from './usageExposure.ts';

/** What charges are built from, beside the time axis. */
export interface ChargeBasis {
  readonly history: UnitHistory;
  readonly events: OilEvents;
  readonly odometer: MeterSeries;
  readonly distanceLogSd: number;
  readonly known: {
    readonly km: KnownDays;
    readonly hours: KnownDays;
    readonly idle: KnownDays;
    readonly pto: KnownDays;
  };
  readonly startDay: number;
  readonly endDay: number;
  readonly asOfDay: number;
  readonly startBasis: 'in_service' | 'first_record';
  /** the engine was new on the start day */
  readonly startsNew: boolean;
  readonly recordDays: ArrayLike<number>;
  readonly hasOdometer: boolean;
  /** spread of the unit's recorded intervals (logarithm) */
  readonly intervalLogSd: number;
}

/** A new engine's own first fill counts as new below this, km. */
export const newEngineKm = 2000;

interface Begin {
  readonly day: number;
  readonly drain: Drain | null;
}

/**
 * Cuts a unit's life into oil charges at its drains.
 * @param story the unit's time axis
 * @param basis its oil events and what is known of its meters
 * @returns in order; the last one runs to the end of the timeline
 */
export function buildCharges(story: UsageStory, basis: ChargeBasis): readonly OilCharge[] {
  const { history, events, startDay, endDay } = basis;
  const { table } = story.axis;
  const begins: Begin[] = [];
  const drains = events.drains.filter((drain) => drain.day <= endDay);
  if (drains.length === 0 || drains[0].day > startDay) begins.push({ day: startDay, drain: null });
  for (const drain of drains) begins.push({ day: Math.max(startDay, drain.day), drain });
  const ends = begins.map((_, index) => (index + 1 < begins.length ? begins[index + 1].day : endDay));
  const broken = breakInCharges(ends, events.coverWorkDays, basis.startsNew);
  const kmOn = (day: number) => columnOn(table.days, table.km, day);
  const evidence: GapEvidence = {
    events: { ...events, drains },
    duty: story.duty,
    ownLogSd: basis.intervalLogSd,
    recordDays: basis.recordDays,
    samples: history.samples.flatMap((sample) =>
      sample.oilKm === null ? [] : [{ day: dayOf(sample.sampledOn), oilKm: sample.oilKm }],
    ),
    kmOn,
  };
  const faults = oilFaults(history, basis.asOfDay);
  return begins.map(({ day, drain }, index): OilCharge => {
    const end = ends[index];
    const last = index === begins.length - 1;
    const { exposure, trips } = cutExposure(story, day, end);
    const km = kmOn(end) - kmOn(day);
    const { spread, inferred } = spanKnowledge(
      story,
      basis.odometer,
      basis.known,
      day,
      end,
      km,
      basis.distanceLogSd,
      trips,
    );
    const startBasis = drain === null ? basis.startBasis : 'drain';
    const hidden = hiddenInGap(
      {
        startDay: day,
        endDay: end,
        running: last,
        km,
        kmKnown: !inferred.includes('distanceKm'),
        startUnknown: startBasis === 'first_record',
      },
      evidence,
      story.rules,
    );
    const during = faultsDuring(faults, day, end, index > 0 ? begins[index - 1].day : day - 1);
    const topUps = topUpsBetween(events, day, end, last);
    return {
      startDay: day,
      endDay: end,
      running: last && endDay === basis.asOfDay,
      startOdometerKm: basis.hasOdometer ? kmOn(day) : null,
      endOdometerKm: basis.hasOdometer ? kmOn(end) : null,
      exposure,
      spread,
      inferred,
      grade: drain?.grade ?? null,
      category: drain?.category ?? null,
      filledLiters: drain?.filledLiters ?? null,
      filterChanged: drain?.filterChanged ?? null,
      topUps: topUps.known,
      startBasis,
      hiddenDrainChance: hidden.chance,
      hiddenDrains: hidden.count,
      faults: during.names,
      openFaults: during.open,
      levelLowLiters: during.levelLowLiters,
      breakIn: broken.has(index),
      notes: [...(drain?.notes ?? []), ...topUps.notes, ...filterNotes(events, day, end), ...hidden.notes],
      source: drain?.source ?? null,
    };
  });
}

/** The first two charges drained after engine or cover work, and those of a new engine. */
function breakInCharges(
  ends: readonly number[],
  workDays: readonly number[],
  startsNew: boolean,
): ReadonlySet<number> {
  const marked = new Set<number>(startsNew ? [0, 1] : []);
  for (const day of workDays) {
    const first = ends.findIndex((end) => end > day);
    if (first < 0) continue;
    marked.add(first);
    marked.add(first + 1);
  }
  return marked;
}

/** Amount taken for a top-up that names none, L. */
const unstatedTopUpLiters = 1;

function topUpsBetween(events: OilEvents, from: number, to: number, last: boolean) {
  const known: TopUp[] = [];
  const notes: string[] = [];
  for (const one of events.added) {
    if (one.day < from || (last ? one.day > to : one.day >= to)) continue;
    if (one.note !== null) notes.push(one.note);
    if (one.liters === null) notes.push('a top-up without an amount was taken as 1 L');
    known.push({
      day: one.day,
      liters: one.liters ?? unstatedTopUpLiters,
      grade: one.grade,
      source: one.source,
    });
  }
  return { known, notes };
}

function filterNotes(events: OilEvents, from: number, to: number): readonly string[] {
  const count = events.filterOnlyDays.filter((day) => day > from && day < to).length;
  return count === 0 ? [] : [`${count} filter ${count === 1 ? 'change' : 'changes'} without oil in between`];
}
