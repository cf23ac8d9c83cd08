import type { Coefficients } from '../schema/coefficient.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { Settings } from '../schema/settings.ts';
import type { UnitTimeline } from './charge.ts';
import { buildCharges, newEngineKm } from './chargeBuild.ts';
import { knownDays } from './chargeSpread.ts';
import { ownFuelPer100Km } from './dutyFuel.ts';
import { unitEvidence } from './dutyEvidence.ts';
import { dutyPicture } from './dutyPicture.ts';
import type { PooledDuty } from './dutyPool.ts';
import { dutyRules, type DutyRules } from './dutyRules.ts';
import { unitDuty, type UnitDuty } from './dutyUnit.ts';
import { meterAgreement } from './meterDisagree.ts';
import { totalOn, type MeterSet } from './meterSet.ts';
import type { MeterSeries } from './meterSeries.ts';
import { siteClimate } from './usageClimate.ts';
import { dayOf } from './usageDay.ts';
import { columnOn, usageAxis, type UsageAxis } from './usageEnds.ts';
import { cutExposure, type UsageStory } from './usageExposure.ts';
import type { FuelRecord } from './usageFuel.ts';
import { recordQuality } from './usageQuality.ts';
import { meteredSteps, type Steps } from './usageTable.ts';
import { tripRecord } from './usageTrips.ts';

const dayOrNull = (iso: string | null): number | null => (iso === null ? null : dayOf(iso));

/** First and last day of a unit's time axis. */
function span(history: UnitHistory, meters: MeterSet, asOfDay: number): { start: number; end: number } {
  const { unit } = history;
  const disposed = dayOrNull(unit.disposedOn);
  let end = asOfDay;
  if (disposed !== null) end = Math.min(asOfDay, disposed);
  else if (unit.status === 'retired' && meters.lastRecordDay !== null) end = meters.lastRecordDay;
  const base = dayOrNull(unit.acquiredOn) ?? dayOrNull(unit.inServiceOn);
  const held = base === null || base > asOfDay ? null : base;
  const first = meters.firstRecordDay;
  const start = held === null ? (first ?? end) : first === null ? held : Math.min(held, first);
  return { start: Math.min(start, end), end };
}

/** Where no odometer and no hour meter is on record, fuel stands for distance. */
function distanceFromFuel(
  meters: MeterSet,
  fuel: FuelRecord,
  duty: UnitDuty,
  rules: DutyRules,
): MeterSeries | null {
  if (meters.odometer.days.length > 1 || meters.hours.days.length > 1 || fuel.days.length < 3) return null;
  const per100 = duty.litersPer100Km?.value ?? duty.start.litersPer100Km;
  const idlePerKm = duty.idleShare.value / (1 - duty.idleShare.value) / duty.speedKmh.value;
  const perKm = per100 / 100 + rules.idleFuelBurn * duty.start.displacementL * idlePerKm;
  const values = Float64Array.from(fuel.liters, (liters) => (liters - fuel.liters[0]) / perKm);
  const told: MeterSeries = { ...meters.odometer, days: fuel.days, values, usualPerDay: null };
  if (meters.odometer.days.length === 0) return told;
  const shift = meters.odometer.values[0] - totalOn(told, meters.odometer.days[0]);
  const least = Math.max(shift, 0);
  return { ...told, values: values.map((value) => value + least) };
}

/** Engine and idle hours on the first day of the axis: by the meters, else from the distance at the unit's duty. */
function hoursAtStart(steps: Steps, axis: UsageAxis, meters: MeterSet, duty: UnitDuty) {
  const { table } = axis;
  const first = steps.hours.low;
  if (steps.hours.high >= first) {
    const since = table.drive[first] + table.idle[first] + table.pto[first];
    const hours = Math.max(0, totalOn(meters.hours, table.days[first]) - since);
    const at = steps.idleHours.low;
    const idle =
      steps.idleHours.high >= at
        ? totalOn(meters.idle, table.days[at]) - table.idle[at]
        : hours * duty.idleShare.value;
    return { hours, idle: Math.min(hours, Math.max(0, idle)) };
  }
  const share = Math.max(0.05, 1 - duty.idleShare.value - duty.ptoShare.value);
  const hours = table.km[0] / duty.speedKmh.value / share;
  return { hours, idle: hours * duty.idleShare.value };
}

/**
 * Builds a unit's meters, oil charges and present duty on one time axis from its records as known on a day. What is not
 * recorded is inferred from the other meters and from comparable units, marked and given a spread. The order of the
 * records and their ids never matter.
 * @param history the unit's records, already cut to what was known
 * @param pooled what comparable units tell, from `poolDuty`
 * @param coefficients catalog values (`duty.*`, `oil.*`)
 * @param settings the shop's settings
 * @param asOfDay days since 1970-01-01
 * @throws Error when the catalog lacks a value
 */
export function buildTimeline(
  history: UnitHistory,
  pooled: PooledDuty,
  coefficients: Coefficients,
  settings: Settings,
  asOfDay: number,
): UnitTimeline {
  const rules = dutyRules(coefficients);
  const { meters: recorded, own, fuel, intervals, events } = unitEvidence(history, rules, asOfDay);
  const idlePerKm =
    own.idleShare !== null && own.speedKmh !== null
      ? own.idleShare / (1 - own.idleShare) / own.speedKmh
      : null;
  const rough = unitDuty(history, pooled, own, intervals, null, rules, settings);
  const usualIdlePerKm = rough.idleShare.value / (1 - rough.idleShare.value) / rough.speedKmh.value;
  const burn = ownFuelPer100Km(history, recorded, fuel, rules, idlePerKm ?? usualIdlePerKm);
  const duty = burn === null ? rough : unitDuty(history, pooled, own, intervals, burn, rules, settings);
  const fromFuel = distanceFromFuel(recorded, fuel, duty, rules);
  const meters = fromFuel === null ? recorded : { ...recorded, odometer: fromFuel };
  const { start, end } = span(history, meters, asOfDay);
  const steps = meteredSteps(meters, duty, rules, start, end);
  const axis = usageAxis(steps, duty, rules, settings.idleEquivalentKm);
  const climate = siteClimate(history.site, rules);
  const trips = tripRecord(history, axis.table, climate, asOfDay);
  const story: UsageStory = { axis, duty, climate, trips, fuel, rules };
  const known = {
    km: knownDays(steps, steps.distance),
    hours: knownDays(steps, steps.hours),
    idle: knownDays(steps, steps.idleHours),
    pto: knownDays(steps, steps.ptoHours),
  };
  const inServiceDay = dayOrNull(history.unit.inServiceOn);
  const acquiredDay = dayOrNull(history.unit.acquiredOn);
  const inService = inServiceDay !== null && start === inServiceDay && (acquiredDay ?? start) <= start;
  const hasOdometer = recorded.odometer.days.length > 0;
  const agreement = meterAgreement(recorded, duty.hybrid, rules);
  const distanceLogSd = fromFuel === null ? 0 : rules.sdFuelDistance;
  const anchored = recorded.anchored.includes('odometer') ? rules.anchorLogSd : 0;
  const charges = buildCharges(story, {
    history,
    events,
    odometer: meters.odometer,
    distanceLogSd,
    known,
    startDay: start,
    endDay: end,
    asOfDay,
    startBasis: inService ? 'in_service' : 'first_record',
    startsNew: inService && (hasOdometer ? axis.table.km[0] < newEngineKm : true),
    recordDays: axis.table.days.subarray(1, -1),
    hasOdometer,
    intervalLogSd: intervals.logSd,
  });
  const { table } = axis;
  const base = hoursAtStart(steps, axis, meters, duty);
  const hoursOn = (day: number) =>
    base.hours +
    columnOn(table.days, table.drive, day) +
    columnOn(table.days, table.idle, day) +
    columnOn(table.days, table.pto, day);
  const notes: string[] = [];
  if (anchored > 0) notes.push('meters taken as nil on the in-service day');
  if (fromFuel !== null) notes.push('no odometer and no hour meter: distance told from fuel');
  if (!duty.start.recognised) notes.push('duty not recognised by its words: mixed duty taken to start with');
  if (!climate.recorded) notes.push('no climate on record for the site: a mild one was taken');
  return {
    unitNumber: history.unit.unitNumber,
    asOfDay,
    inServiceDay,
    firstDay: start,
    lastRecordDay: recorded.lastRecordDay,
    odometerKm: hasOdometer ? table.km[table.km.length - 1] : null,
    engineHours: recorded.hours.days.length > 0 ? hoursOn(end) : null,
    odometerOffsetKm: recorded.odometer.offset,
    engineHoursOffset: recorded.hours.offset,
    charges,
    duty: dutyPicture(story, {
      known,
      endDay: end,
      idleEquivalentKm: settings.idleEquivalentKm,
      distanceLogSd,
    }),
    recordQuality: recordQuality(
      [recorded.odometer, recorded.hours],
      charges,
      agreement.disagree,
      inServiceDay,
      end,
      rules,
    ),
    metersDisagree: agreement.disagree,
    metersDisagreeReasons: agreement.reasons,
    notes,
    exposureBetween: (fromDay, toDay) => cutExposure(story, fromDay, toDay).exposure,
    metersAt: (day) =>
      day < start || axis.meteredFrom === null
        ? null
        : {
            odometerKm: columnOn(table.days, table.km, day),
            engineHours: hoursOn(day),
            idleHours: base.idle + columnOn(table.days, table.idle, day),
          },
  };
}
