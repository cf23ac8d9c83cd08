import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import { dutyClasses, type DutyClass } from './dutyWords.ts';
import type { FuelSystem } from './exposure.ts';

/** What a recognised duty usually looks like, before any record is seen. */
export interface DutyPrior {
  readonly kmPerDay: number;
  readonly idleShare: number;
  readonly speedKmh: number;
  readonly tripKm: number;
  readonly soakedStartsPerDay: number;
  readonly towingShare: number;
  readonly dustShare: number;
  readonly ptoShare: number;
}

const named = {
  meterRateFactor: 'duty.meter_rate_factor',
  meterRateFloorKm: 'duty.meter_rate_floor_km',
  meterRateCeilingKm: 'duty.meter_rate_ceiling_km',
  meterRateCeilingHours: 'duty.meter_rate_ceiling_hours',
  meterRateCeilingLiters: 'duty.meter_rate_ceiling_liters',
  meterSlackDays: 'duty.meter_slack_days',
  meterGapDays: 'duty.meter_gap_days',
  fastSpeedKmh: 'duty.meter_fast_speed',
  slowSpeedKmh: 'duty.meter_slow_speed',
  disagreeShare: 'duty.meter_disagree_share',
  zeroRateFactor: 'duty.meter_zero_rate_factor',
  usePeriodLogSd: 'duty.use_period_log_sd',
  useDriftLogSd: 'duty.use_drift_log_sd',
  useComingLogSd: 'duty.use_coming_log_sd',
  useGapLogSd: 'duty.use_gap_log_sd',
  useMaxLogSd: 'duty.use_max_log_sd',
  useHuberWidth: 'duty.use_huber_width',
  ownHoursWeight: 'duty.own_hours_weight',
  ownStartsWeight: 'duty.own_starts_weight',
  ownDistanceWeightKm: 'duty.own_distance_weight',
  groupWeight: 'duty.group_weight',
  sdWeight: 'duty.sd_weight',
  anchorLogSd: 'duty.anchor_log_sd',
  hybridDistanceShare: 'duty.hybrid_distance_share',
  hybridIdleFactor: 'duty.hybrid_idle_factor',
  shortTripKm: 'duty.short_trip_km',
  shortTripColdKm: 'duty.short_trip_cold_km',
  speedMinKmh: 'duty.speed_min',
  speedMaxKmh: 'duty.speed_max',
  sdKmPerDay: 'duty.sd_km_per_day',
  sdIdleShare: 'duty.sd_idle_share',
  sdSpeed: 'duty.sd_speed',
  sdKmPerHour: 'duty.sd_km_per_hour',
  sdTripKm: 'duty.sd_trip_km',
  sdSoakedStarts: 'duty.sd_soaked_starts',
  sdTowing: 'duty.sd_towing',
  sdFuel: 'duty.sd_fuel',
  sdInterval: 'duty.sd_interval',
  sdFuelDistance: 'duty.sd_fuel_distance',
  sdAmbientC: 'duty.sd_ambient',
  sdAmbientSiteC: 'duty.sd_ambient_site',
  ambientReadingsWeight: 'duty.ambient_readings_weight',
  ambientDaySdC: 'duty.ambient_day_sd',
  drainConfidence: 'duty.drain_confidence',
  drainFillShare: 'duty.drain_fill_share',
  drainHintShare: 'duty.drain_hint_share',
  drainSameDays: 'duty.drain_same_days',
  drainSameKm: 'duty.drain_same_km',
  intervalKm: 'duty.interval_km',
  intervalDays: 'duty.interval_days',
  intervalOwnWeight: 'duty.interval_own_weight',
  intervalLogSd: 'duty.interval_log_sd',
  longIntervalChance: 'duty.long_interval_chance',
  longIntervalLogSd: 'duty.long_interval_log_sd',
  unrecordedChance: 'duty.unrecorded_chance',
  unrecordedNoService: 'duty.unrecorded_chance_no_service',
  unrecordedNoRecords: 'duty.unrecorded_chance_no_records',
  unrecordedNoDrains: 'duty.unrecorded_chance_no_drains',
  unrecordedNoHistory: 'duty.unrecorded_chance_no_history',
  unrecordedRunOn: 'duty.unrecorded_run_on',
  coverWorkDrainChance: 'duty.cover_work_drain_chance',
  sampleDrainChance: 'duty.sample_drain_chance',
  severeShare: 'duty.severe_share',
  severeIdleShare: 'duty.severe_idle_share',
  severeStopGoSpeedKmh: 'duty.severe_stop_go_speed',
  severeHeatC: 'duty.severe_heat',
  severeColdC: 'duty.severe_cold',
  severityShortTrip: 'duty.severity_short_trip',
  severityIdle: 'duty.severity_idle',
  severityStopGo: 'duty.severity_stop_go',
  severityTowing: 'duty.severity_towing',
  severityDust: 'duty.severity_dust',
  severityHeat: 'duty.severity_heat',
  severityCold: 'duty.severity_cold',
  severityFurther: 'duty.severity_further',
  severityFloor: 'duty.severity_floor',
  idleFuelBurn: 'oil.idle_fuel_burn',
  ptoFuelBurn: 'oil.pto_fuel_burn',
} as const;

const priorNames = {
  kmPerDay: 'km_per_day',
  idleShare: 'idle_share',
  speedKmh: 'speed',
  tripKm: 'trip_km',
  soakedStartsPerDay: 'soaked_starts',
  towingShare: 'towing_share',
  dustShare: 'dust_share',
  ptoShare: 'pto_share',
} as const;

const monthNames = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const fuelSystems: readonly FuelSystem[] = ['PFI', 'GDI', 'TGDI', 'diesel', 'gas'];

/** The catalog's values about duty, under the names of the calculation. */
export type DutyRules = Readonly<Record<keyof typeof named, number>> & {
  readonly priors: Readonly<Record<DutyClass, DutyPrior>>;
  /** mean temperature January–December where a site has none on record, °C */
  readonly ambientByMonthC: readonly number[];
  /** fuel per distance and litre of displacement, L/(100 km·L) */
  readonly fuelPerDistance: Readonly<Record<FuelSystem, number>>;
};

const resolved = new WeakMap<Coefficients, DutyRules>();

/**
 * Looks the duty coefficients up by id; the answer for one catalog is kept.
 * @param coefficients values by id; must not be changed afterwards
 * @returns e.g. `shortTripKm` 8
 * Throws when an id is missing.
 */
export function dutyRules(coefficients: Coefficients): DutyRules {
  const known = resolved.get(coefficients);
  if (known !== undefined) return known;
  const values = {} as Record<keyof typeof named, number>;
  for (const name of Object.keys(named) as (keyof typeof named)[])
    values[name] = coefficientValue(coefficients, named[name]);
  const priors = {} as Record<DutyClass, DutyPrior>;
  for (const dutyClass of dutyClasses) {
    const prior = {} as Record<keyof DutyPrior, number>;
    for (const name of Object.keys(priorNames) as (keyof DutyPrior)[])
      prior[name] = coefficientValue(coefficients, `duty.prior.${dutyClass}.${priorNames[name]}`);
    priors[dutyClass] = prior;
  }
  const fuelPerDistance = {} as Record<FuelSystem, number>;
  for (const system of fuelSystems)
    fuelPerDistance[system] = coefficientValue(coefficients, `oil.fuel_per_distance.${system}`);
  const ambientByMonthC = monthNames.map((month) =>
    coefficientValue(coefficients, `duty.prior.ambient.${month}`),
  );
  const rules: DutyRules = { ...values, priors, ambientByMonthC, fuelPerDistance };
  resolved.set(coefficients, rules);
  return rules;
}
