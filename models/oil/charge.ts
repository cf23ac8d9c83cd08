import type { Source } from '../schema/history.ts';
import type { Exposure } from './exposure.ts';

/**
 * How sure the totals of a span are: standard deviations of the logarithm of each; 0 where measured. `drivingHours` and
 * `idleHours` are what is unsure of the hours beyond the distance. `ambientC` is a plain standard deviation in °C.
 */
export interface ExposureSpread {
  readonly distance: number;
  readonly drivingHours: number;
  readonly idleHours: number;
  readonly tripKm: number;
  readonly starts: number;
  readonly ambientC: number;
}

/** Oil added between drains. */
export interface TopUp {
  readonly day: number;
  readonly liters: number;
  readonly grade: string | null;
  readonly source: Source | null;
}

/** One oil charge: what was filled, when, and what it went through until `endDay`. Days are since 1970-01-01. */
export interface OilCharge {
  readonly startDay: number;
  readonly endDay: number;
  /** the oil is still in the engine on the as-of day */
  readonly running: boolean;
  readonly startOdometerKm: number | null;
  readonly endOdometerKm: number | null;
  readonly exposure: Exposure;
  readonly spread: ExposureSpread;
  /** what of the exposure was inferred: names of Exposure fields */
  readonly inferred: readonly string[];
  /** grade and category on the record; null: not recorded */
  readonly grade: string | null;
  readonly category: string | null;
  readonly filledLiters: number | null;
  readonly filterChanged: boolean | null;
  readonly topUps: readonly TopUp[];
  /** how the start is known: a recorded drain, the in-service day, or only the first record there is */
  readonly startBasis: 'drain' | 'in_service' | 'first_record';
  /** chance that one or more drains inside the span went unrecorded (done elsewhere), 0..1 */
  readonly hiddenDrainChance: number;
  /** how many drains that would most likely be */
  readonly hiddenDrains: number;
  /** causes recorded during the charge that spoil oil: `oil_level_low`, `ventilation_fault`, `thermostat_open`, `filter_wrong` */
  readonly faults: readonly string[];
  /** those of them that go on after the day: a ventilation or thermostat fault without a repair on record */
  readonly openFaults?: readonly string[];
  /** litres missing when a low level was found during the charge, L */
  readonly levelLowLiters: number;
  /** true for the first two drains after engine or cover work */
  readonly breakIn: boolean;
  /** what was decided about the records of this charge, in words */
  readonly notes?: readonly string[];
  readonly source: Source | null;
}

/** A unit's present duty, from its own records shrunk to comparable units. */
export interface DutyPicture {
  /** robust usage over the last twelve months, km/day and h/day */
  readonly kmPerDay: number;
  readonly engineHoursPerDay: number;
  readonly idleHoursPerDay: number;
  readonly ptoHoursPerDay: number;
  /** of engine hours */
  readonly idleShare: number;
  readonly speedKmh: number;
  readonly tripKm: number;
  readonly soakedStartsPerDay: number;
  readonly towingShare: number;
  readonly dustShare: number;
  /** mean ambient by month January–December, °C */
  readonly ambientByMonthC: readonly number[];
  readonly litersPer100Km: number | null;
  readonly severe: boolean;
  readonly severeReasons: readonly string[];
  /** what was inferred: `idleShare`, `engineHours`, `tripKm`, `soakedStarts`, `ambient`, `kmPerDay` */
  readonly inferred: readonly string[];
  /** log-sd of the rate of use over the coming months */
  readonly useLogSd: number;
  /** equivalent distance: km plus idle hours at the settings' km per idle hour, per day */
  readonly equivalentKmPerDay: number;
  /** severe interval against the normal one where the book has none, 0..1; 1 = not severe */
  readonly severityFactor?: number;
  /** hybrids: speed at which the engine itself drives, km/h; `speedKmh` is their distance per engine hour of driving */
  readonly enginePaceKmh?: number;
  /** median drain interval of the unit's records, shrunk to comparable units and the book, km and days */
  readonly usualIntervalKm?: number;
  readonly usualIntervalDays?: number;
}

/** A unit's meters, oil charges and duty on one time axis. */
export interface UnitTimeline {
  readonly unitNumber: string;
  readonly asOfDay: number;
  readonly inServiceDay: number | null;
  readonly firstDay: number;
  readonly lastRecordDay: number | null;
  /** true total distance and hours on the as-of day; null: no such meter on record */
  readonly odometerKm: number | null;
  readonly engineHours: number | null;
  /** true totals less what the meters show now (meters that were replaced); 0 where none was */
  readonly odometerOffsetKm?: number;
  readonly engineHoursOffset?: number;
  readonly charges: readonly OilCharge[];
  readonly duty: DutyPicture;
  /** share of the last two years with meters, drains and grades known, 0..1 */
  readonly recordQuality: number;
  /** odometer and hours contradict each other: any extension is blocked */
  readonly metersDisagree: boolean;
  /** the contradictions in words */
  readonly metersDisagreeReasons?: readonly string[];
  /** what was decided or assumed about the unit's records, in words */
  readonly notes?: readonly string[];
  /** exposure between two days (any part of the timeline), for samples and findings inside a charge */
  readonly exposureBetween: (fromDay: number, toDay: number) => Exposure;
  /** odometer and engine hours on a day, interpolated; null before the first meter */
  readonly metersAt: (day: number) => { odometerKm: number; engineHours: number; idleHours: number } | null;
}
