import type { UnitHistory } from '../schema/history.ts';
import { dayOf } from './usageDay.ts';

/** Points of one meter, in order of day, then of value, repeats counted in the weight. */
export interface MeterPoints {
  readonly days: Int32Array;
  readonly values: Float64Array;
  readonly weights: Float64Array;
}

/** What a unit's records say of its meters, before anything is judged. */
export interface UnitMeterPoints {
  readonly odometer: MeterPoints;
  readonly hours: MeterPoints;
  readonly idle: MeterPoints;
  readonly pto: MeterPoints;
  readonly fuel: MeterPoints;
  /** first and last day with a record of any kind up to the as-of day, unit master data left out; null: none */
  readonly firstRecordDay: number | null;
  readonly lastRecordDay: number | null;
}

interface PointList {
  readonly days: Int32Array;
  readonly values: Float64Array;
  count: number;
}

const emptyList = (room: number): PointList => ({
  days: new Int32Array(room),
  values: new Float64Array(room),
  count: 0,
});

function add(list: PointList, day: number, value: number | null): void {
  if (value === null || !(value >= 0) || value === Infinity) return;
  list.days[list.count] = day;
  list.values[list.count] = value;
  list.count++;
}

// A day and a place in the list share one double, so that plain numeric sorting puts the points in order.
const stride = 2 ** 20;

/** Sorts a list by day, then by value, in place. */
function sortByDay(list: PointList): void {
  const { days, values, count } = list;
  let inOrder = true;
  for (let i = 1; i < count && inOrder; i++)
    inOrder = days[i - 1] < days[i] || (days[i - 1] === days[i] && values[i - 1] <= values[i]);
  if (inOrder) return;
  const keys = new Float64Array(count);
  const unsorted = values.slice(0, count);
  for (let i = 0; i < count; i++) keys[i] = days[i] * stride + i;
  keys.sort();
  for (let i = 0; i < count; i++) {
    const day = Math.floor(keys[i] / stride);
    const value = unsorted[keys[i] - day * stride];
    let at = i;
    while (at > 0 && days[at - 1] === day && values[at - 1] > value) {
      values[at] = values[at - 1];
      at--;
    }
    days[i] = day;
    values[at] = value;
  }
}

function ordered(list: PointList): MeterPoints {
  sortByDay(list);
  const { days, values } = list;
  const weights = new Float64Array(list.count);
  let count = 0;
  for (let i = 0; i < list.count; i++) {
    if (count > 0 && days[count - 1] === days[i] && values[count - 1] === values[i]) {
      weights[count - 1]++;
      continue;
    }
    days[count] = days[i];
    values[count] = values[i];
    weights[count] = 1;
    count++;
  }
  return {
    days: days.subarray(0, count),
    values: values.subarray(0, count),
    weights: weights.subarray(0, count),
  };
}

/**
 * Collects the meter values of all kinds of records of a unit. The order of the records does not matter.
 * @param history the unit's records
 * @param asOfDay days since 1970-01-01; records dated later are left out
 */
export function collectMeterPoints(history: UnitHistory, asOfDay: number): UnitMeterPoints {
  const read = history.readings.length;
  const served = history.services.length;
  const odometer = emptyList(
    read + served + history.fuel.length + history.samples.length + history.findings.length + 2,
  );
  const hours = emptyList(read + served);
  const idle = emptyList(read + served);
  const pto = emptyList(read);
  const fuel = emptyList(read);
  let first = Infinity;
  let last = -Infinity;
  const dated = (iso: string): number | null => {
    const day = dayOf(iso);
    if (day > asOfDay) return null;
    if (day < first) first = day;
    if (day > last) last = day;
    return day;
  };
  for (const reading of history.readings) {
    const day = dated(reading.readOn);
    if (day === null) continue;
    add(odometer, day, reading.odometerKm);
    add(hours, day, reading.engineHoursH);
    add(idle, day, reading.idleHoursH);
    add(pto, day, reading.ptoHoursH);
    add(fuel, day, reading.fuelL);
  }
  for (const service of history.services) {
    const day = dated(service.servicedOn);
    if (day === null) continue;
    add(odometer, day, service.odometerKm);
    add(hours, day, service.engineHoursH);
    add(idle, day, service.idleHoursH);
  }
  for (const fill of history.fuel) {
    const day = dated(fill.filledOn);
    if (day !== null) add(odometer, day, fill.odometerKm);
  }
  for (const sample of history.samples) {
    const day = dated(sample.sampledOn);
    if (day !== null) add(odometer, day, sample.odometerKm);
  }
  for (const finding of history.findings) {
    const day = dated(finding.foundOn);
    if (day !== null) add(odometer, day, finding.odometerKm);
  }
  for (const code of history.codes) dated(code.seenOn);
  const { unit } = history;
  if (unit.inServiceOn !== null && dayOf(unit.inServiceOn) <= asOfDay)
    add(odometer, dayOf(unit.inServiceOn), unit.inServiceOdometerKm);
  if (unit.acquiredOn !== null && dayOf(unit.acquiredOn) <= asOfDay)
    add(odometer, dayOf(unit.acquiredOn), unit.acquiredOdometerKm);
  return {
    odometer: ordered(odometer),
    hours: ordered(hours),
    idle: ordered(idle),
    pto: ordered(pto),
    fuel: ordered(fuel),
    firstRecordDay: first <= last ? first : null,
    lastRecordDay: first <= last ? last : null,
  };
}
