import type { UnitHistory } from '../schema/history.ts';
import { oilEvents, type OilEvents } from './chargeDrains.ts';
import { ownDuty, type OwnDuty } from './dutyOwn.ts';
import type { DutyRules } from './dutyRules.ts';
import { meterSet, totalOn, type MeterSet } from './meterSet.ts';
import { fuelRecord, type FuelRecord } from './usageFuel.ts';

/** The unit's own usual drain interval; null: none on record. */
export interface OwnIntervals {
  readonly count: number;
  readonly km: number | null;
  readonly days: number | null;
  /** spread of the single intervals (logarithm), shrunk to the catalog's */
  readonly logSd: number;
}

/** What a unit's own records measure, before comparable units come in. */
export interface UnitEvidence {
  readonly meters: MeterSet;
  readonly own: OwnDuty;
  readonly events: OilEvents;
  readonly intervals: OwnIntervals;
  readonly fuel: FuelRecord;
}

interface Kept {
  readonly asOfDay: number;
  readonly rules: DutyRules;
  readonly evidence: UnitEvidence;
}

// pooling and the timeline read the same records one after the other
const kept = new WeakMap<UnitHistory, Kept>();

/**
 * Reads a unit's records; the answer for one history and day is kept.
 * @param history the unit's records; must not be changed afterwards
 * @param rules catalog values
 * @param asOfDay days since 1970-01-01
 */
export function unitEvidence(history: UnitHistory, rules: DutyRules, asOfDay: number): UnitEvidence {
  const known = kept.get(history);
  if (known !== undefined && known.asOfDay === asOfDay && known.rules === rules) return known.evidence;
  const meters = meterSet(history, rules, asOfDay);
  const events = oilEvents(history, rules, asOfDay);
  const evidence: UnitEvidence = {
    meters,
    own: ownDuty(history, meters, rules, asOfDay),
    events,
    intervals: usualIntervals(events, meters, rules),
    fuel: fuelRecord(history, meters.fuel, rules, asOfDay),
  };
  kept.set(history, { asOfDay, rules, evidence });
  return evidence;
}

/** The middle of a unit's recorded drain intervals. */
function usualIntervals(events: OilEvents, meters: MeterSet, rules: DutyRules): OwnIntervals {
  const { drains } = events;
  const days: number[] = [];
  const km: number[] = [];
  for (let i = 1; i < drains.length; i++) {
    days.push(drains[i].day - drains[i - 1].day);
    if (meters.odometer.days.length > 1)
      km.push(totalOn(meters.odometer, drains[i].day) - totalOn(meters.odometer, drains[i - 1].day));
  }
  const driven = km.filter((value) => value > 0);
  return {
    count: days.length,
    km: median(driven),
    days: median(days),
    logSd: intervalSpread(driven.length >= 3 ? driven : days, rules),
  };
}

/**
 * Spread of a unit's recorded intervals (logarithm), from the middle deviation so that gaps do not widen it, shrunk to
 * the catalog's.
 * @param intervals recorded intervals in any one measure, above 0
 */
export function intervalSpread(intervals: readonly number[], rules: DutyRules): number {
  const k = rules.intervalOwnWeight;
  const assumed = rules.intervalLogSd;
  const logs = intervals.filter((value) => value > 0).map((value) => Math.log(value));
  const middle = median(logs);
  if (middle === null || logs.length < 3) return assumed;
  const deviation = 1.4826 * (median(logs.map((value) => Math.abs(value - middle))) ?? 0);
  return Math.sqrt((k * assumed ** 2 + logs.length * deviation ** 2) / (k + logs.length));
}

/** Middle value; null for none. */
export function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
