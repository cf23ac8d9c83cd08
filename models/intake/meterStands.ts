import { dayFromIso } from '../schema/day.ts';
import { contentOf, dayNumber, type CheckRecord, type UnitSpan } from './checkRecord.ts';
import { countedOn, type MeterEvent } from './meterEvents.ts';
import { consistentRun, type MeterPoint, type MeterRule } from './meterSeries.ts';
import type { ReasonCode } from './reasons.ts';

export type MeterName = 'odometerKm' | 'engineHoursH' | 'idleHoursH' | 'fuelL';

interface MeterWords {
  readonly rule: MeterRule;
  readonly back: ReasonCode;
  readonly jump: ReasonCode;
  readonly name: string;
  readonly unit: string;
}

/** Most a meter can gain in a day: two drivers in turn; the clock; a large engine at full load all day. */
export const meterWords: Readonly<Record<MeterName, MeterWords>> = {
  odometerKm: {
    rule: { perDay: 1600, tolerance: 2 },
    back: 'odometer_back',
    jump: 'odometer_jump',
    name: 'odometer',
    unit: 'km',
  },
  engineHoursH: {
    rule: { perDay: 24, tolerance: 0.6 },
    back: 'hours_back',
    jump: 'hours_jump',
    name: 'engine hours',
    unit: 'h',
  },
  idleHoursH: {
    rule: { perDay: 24, tolerance: 0.6 },
    back: 'idle_back',
    jump: 'hours_jump',
    name: 'idle hours',
    unit: 'h',
  },
  fuelL: {
    rule: { perDay: 1500, tolerance: 1 },
    back: 'fuel_back',
    jump: 'out_of_range',
    name: 'fuel used',
    unit: 'L',
  },
};

/** A meter value of one record, counted on across replacements. */
export interface Stand extends MeterPoint {
  readonly entry: CheckRecord | null;
  readonly shown: number;
  readonly stretch: number;
  readonly content: string;
}

/** All values of one meter, in order of day, then value. */
export function standsOf(
  meter: MeterName,
  span: UnitSpan,
  existing: readonly CheckRecord[],
  fresh: readonly CheckRecord[],
  events: readonly MeterEvent[],
  scale: ReadonlyMap<string, number>,
): Stand[] {
  const stands: Stand[] = [];
  const add = (entry: CheckRecord, weight: number) => {
    const shown = entry.record[meter];
    const day = dayNumber(entry);
    // A fill's fuel is no meter, and the distance of an event is no stand of it.
    if (typeof shown !== 'number' || day === null || (meter === 'fuelL' && entry.kind !== 'readings')) return;
    const value = shown * (scale.get(entry.source) ?? 1);
    stands.push({
      ...countedOn(value, day, events),
      day,
      weight,
      entry,
      shown,
      content: contentOf(entry),
    });
  };
  // What was taken before counts a little more, so that a tie goes its way.
  for (const entry of existing) add(entry, 1.001);
  for (const entry of fresh) add(entry, 1);
  if (meter === 'odometerKm' && span.inServiceOn !== null && span.inServiceOdometerKm !== null)
    stands.push({
      day: dayFromIso(span.inServiceOn),
      value: span.inServiceOdometerKm,
      shown: span.inServiceOdometerKm,
      stretch: 0,
      weight: 1.001,
      entry: null,
      content: '',
    });
  return stands.sort(
    (a, b) =>
      a.day - b.day || a.value - b.value || (a.content < b.content ? -1 : a.content > b.content ? 1 : 0),
  );
}

/** The values that agree with each other. */
export function keptOf(stands: readonly Stand[], rule: MeterRule): Set<Stand> {
  const kept = new Set<Stand>();
  for (const stretch of new Set(stands.map((stand) => stand.stretch))) {
    const part = stands.filter((stand) => stand.stretch === stretch);
    consistentRun(part, rule).forEach((isKept, at) => {
      const stand = part[at];
      if (isKept && stand !== undefined) kept.add(stand);
    });
  }
  return kept;
}
