import type { WorkKind } from '../../models/schema/service.ts';

/** How the drains of a unit are kept. */
export interface DrainHabit {
  readonly intervalKm: number;
  /** null: the shop does not look at hours */
  readonly intervalHours: number | null;
  readonly intervalMonths: number;
  /** spread of the logarithm of the interval really driven */
  readonly lateLogSd: number;
  /** chance that a drain is left out altogether */
  readonly missedChance: number;
  /** chance that a drain is done elsewhere and never recorded */
  readonly elsewhereChance: number;
  readonly wrongOil: { readonly chance: number; readonly grade: string; readonly category: string } | null;
}

/** The state of one unit at the end of a month, as it really was. */
export interface MonthTruth {
  /** `YYYY-MM` */
  readonly month: string;
  /** last day of the month in service, days since 1970-01-01 */
  readonly day: number;
  readonly odometerKm: number;
  readonly engineHours: number;
  readonly idleHours: number;
  /** 10 minus merit, 0 clean */
  readonly sludge: number;
  /** null: no chain */
  readonly chainPercent: number | null;
  /** 1 = the median end of life; null: no phaser */
  readonly phaserShare: number | null;
  /** 1 = the median end of life; null: no belt */
  readonly beltShare: number | null;
}

export type Component = 'chain' | 'phaser' | 'belt';

/** A part that really failed, or was renewed before it did. */
export interface RenewalTruth {
  readonly day: number;
  readonly component: Component;
  readonly works: readonly WorkKind[];
  readonly outcome: 'planned' | 'failed';
  readonly odometerKm: number;
  /** the row is in the files */
  readonly recorded: boolean;
  /** the unit was given up instead of repaired */
  readonly disposed: boolean;
}

/** A drain that really took place. */
export interface DrainTruth {
  readonly day: number;
  readonly odometerKm: number;
  readonly engineHours: number;
  readonly idleHours: number;
  readonly grade: string;
  readonly recorded: boolean;
}

export interface UnitTruth {
  readonly unitNumber: string;
  readonly duty: string;
  readonly engineFamily: string;
  readonly site: string;
  readonly inServiceDay: number;
  /** first day with records */
  readonly firstRecordDay: number;
  readonly lastDay: number;
  readonly disposedDay: number | null;
  readonly habit: DrainHabit;
  readonly recording: string;
  readonly months: readonly MonthTruth[];
  readonly drains: readonly DrainTruth[];
  readonly renewals: readonly RenewalTruth[];
}

export interface FleetTruth {
  readonly seed: number;
  readonly startDay: number;
  readonly endDay: number;
  readonly units: readonly UnitTruth[];
}

/** The unit that carried a number on a day; throws when there is none. */
export function unitTruth(truth: FleetTruth, unitNumber: string, day: number): UnitTruth {
  const found = truth.units.find(
    (unit) => unit.unitNumber === unitNumber && unit.inServiceDay <= day && day <= unit.lastDay,
  );
  if (!found) throw new Error(`unitTruth: unit ${unitNumber} must be in service on day ${day}`);
  return found;
}

/** The last month-end state on or before a day; throws when the unit was not in service yet. */
export function stateOn(unit: UnitTruth, day: number): MonthTruth {
  let found: MonthTruth | undefined;
  for (const month of unit.months) if (month.day <= day) found = month;
  if (!found) throw new Error(`stateOn: day must be after the first month in service, got ${day}`);
  return found;
}

/** Failures of the timing drive between two days (first excluded, last included). */
export function failuresBetween(unit: UnitTruth, fromDay: number, toDay: number): readonly RenewalTruth[] {
  return unit.renewals.filter((r) => r.outcome === 'failed' && r.day > fromDay && r.day <= toDay);
}
