import type { OilEvents } from './chargeDrains.ts';
import { hiddenDrains, type HiddenDrains } from './chargeHidden.ts';
import type { DutyRules } from './dutyRules.ts';
import type { UnitDuty } from './dutyUnit.ts';

/** What the records around drains tell, for the whole unit. */
export interface GapEvidence {
  readonly events: OilEvents;
  readonly duty: UnitDuty;
  /** spread of the unit's intervals about its usual one (logarithm) */
  readonly ownLogSd: number;
  /** days with any meter value, in order */
  readonly recordDays: ArrayLike<number>;
  /** distance on the oil as samples state it */
  readonly samples: readonly OilKmStated[];
  /** true odometer on a day, km */
  readonly kmOn: (day: number) => number;
}

/** A sample's own word on how long its oil had been in. */
export interface OilKmStated {
  readonly day: number;
  readonly oilKm: number;
}

function anyBetween(days: ArrayLike<number>, from: number, to: number): boolean {
  let low = 0;
  let high = days.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (days[middle] <= from) low = middle + 1;
    else high = middle;
  }
  return low < days.length && days[low] < to;
}

/** A span between two drains on record (or to the as-of day). */
export interface GapSpan {
  readonly startDay: number;
  readonly endDay: number;
  readonly running: boolean;
  /** odometer distance, km */
  readonly km: number;
  /** the distance is metered, not inferred */
  readonly kmKnown: boolean;
  /** age of the oil at the start is not known */
  readonly startUnknown: boolean;
}

/**
 * Chance and number of unrecorded drains in a span: by how many of the usual intervals it holds, how regular the unit's
 * intervals are, and whether other services or any records at all run on through it.
 * @returns with the reason in words where the chance is above one half
 */
export function hiddenInGap(
  span: GapSpan,
  evidence: GapEvidence,
  rules: DutyRules,
): HiddenDrains & { readonly notes: readonly string[] } {
  const { events, duty, ownLogSd, recordDays } = evidence;
  const { startDay, endDay } = span;
  const usual = span.kmKnown ? duty.intervalKm : duty.intervalDays;
  const length = span.kmKnown ? span.km : endDay - startDay;
  const ratio = length / Math.max(1e-6, usual.value) + (span.startUnknown ? 0.5 : 0);
  const serviced = anyBetween(events.serviceDays, startDay, endDay);
  const recorded = serviced || anyBetween(recordDays, startDay, endDay);
  let q = serviced
    ? rules.unrecordedChance
    : recorded
      ? rules.unrecordedNoService
      : rules.unrecordedNoRecords;
  const none = events.drains.length === 0;
  if (none) q = events.serviceDays.length === 0 ? rules.unrecordedNoHistory : rules.unrecordedNoDrains;
  const found = hiddenDrains(
    {
      intervals: length > 0 ? ratio : 0,
      running: span.running,
      logSd: Math.min(1, Math.hypot(ownLogSd, usual.spread)),
      unrecordedChance: q,
    },
    rules,
  );
  const apart = rules.drainSameDays;
  const covers = events.coverWorkDays.some((day) => day > startDay + apart && day < endDay - apart);
  const chance = covers ? 1 - (1 - found.chance) * (1 - rules.coverWorkDrainChance) : found.chance;
  const count = covers ? Math.max(1, found.count) : found.count;
  const notes: string[] = [];
  const stated = statedBySamples(span, evidence);
  if (stated === 'drained') {
    notes.push('a sample states less distance on the oil than the records: a drain in between is missing');
    return { chance: Math.max(chance, rules.sampleDrainChance), count: Math.max(1, count), notes };
  }
  if (stated === 'same oil') {
    notes.push('a sample states the distance on the oil that the records give');
    return { chance: chance * (1 - rules.sampleDrainChance), count, notes };
  }
  if (none && chance > 0.5) notes.push('no oil change on record in the whole history: drains are not known');
  else if (chance > 0.5)
    notes.push(
      `${ratio.toFixed(1)} usual intervals with no drain on record: ${count} ${count === 1 ? 'drain' : 'drains'} probably done elsewhere`,
    );
  if (covers) notes.push('timing or engine work in between, which usually brings fresh oil');
  return { chance, count, notes };
}

/** Whether samples of the span say that the oil is younger than the records have it, or as old; else null. */
function statedBySamples(span: GapSpan, evidence: GapEvidence): 'drained' | 'same oil' | null {
  if (!span.kmKnown || span.startUnknown) return null;
  let same = false;
  for (const { day, oilKm } of evidence.samples) {
    if (day <= span.startDay || day > span.endDay) continue;
    const recorded = evidence.kmOn(day) - evidence.kmOn(span.startDay);
    if (recorded < 1000) continue;
    if (oilKm < 0.7 * recorded - 300) return 'drained';
    if (Math.abs(oilKm - recorded) < 0.15 * recorded && recorded > 0.7 * span.km) same = true;
  }
  return same ? 'same oil' : null;
}
