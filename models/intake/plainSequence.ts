import { dayFromIso } from '../schema/day.ts';
import type { UnitSpan } from './checkRecord.ts';
import type { MeterRule } from './meterSeries.ts';
import { meterWords, type MeterName } from './meterStands.ts';
import { visitKinds, type MeterTable } from './meterTable.ts';

const meters: readonly MeterName[] = ['odometerKm', 'engineHoursH', 'idleHoursH', 'fuelL'];

/** A day and a value in one number that sorts by day, then value: values stay below a day's share of it. */
const dayShare = 1e8;
const dayOffset = 40_000;
/** What packing rounds away is given up from the tolerance, so that a close call goes to the full check. */
const packing = 0.01;

const sameDays = 3;
const scratch = { keys: new Float64Array(1024), gains: new Float64Array(1024) };

function packed(table: MeterTable, values: Float64Array, span: UnitSpan | null): Float64Array {
  if (scratch.keys.length < table.count + 1) {
    scratch.keys = new Float64Array(2 * table.count + 1);
    scratch.gains = new Float64Array(2 * table.count + 1);
  }
  const { keys } = scratch;
  let count = 0;
  for (let at = 0; at < table.count; at += 1) {
    const value = values[at] ?? Number.NaN;
    if (value >= 0) keys[count++] = ((table.day[at] ?? 0) + dayOffset) * dayShare + value;
  }
  if (span !== null && span.inServiceOn !== null && span.inServiceOdometerKm !== null)
    keys[count++] = (dayFromIso(span.inServiceOn) + dayOffset) * dayShare + span.inServiceOdometerKm;
  return keys.subarray(0, count).sort();
}

function allFollow(keys: Float64Array, rule: MeterRule): boolean {
  let lastDay = 0;
  let lastValue = 0;
  for (let at = 0; at < keys.length; at += 1) {
    const key = keys[at] ?? 0;
    const day = Math.floor(key / dayShare);
    const value = key - day * dayShare;
    if (at > 0) {
      const gain = value - lastValue;
      const most = rule.perDay * (day - lastDay + 1) + rule.tolerance - packing;
      if (gain < packing - rule.tolerance || gain > most) return false;
    }
    lastDay = day;
    lastValue = value;
  }
  return true;
}

/** Whether the last odometer value runs so far ahead of the usual pace that it has to be looked at. */
function lastRunsAhead(keys: Float64Array): boolean {
  const count = keys.length;
  if (count < 7) return false;
  const { gains } = scratch;
  let found = 0;
  let fromDay = 0;
  let fromValue = 0;
  let [beforeDay, beforeValue, day, value] = [0, 0, 0, 0];
  for (let at = 0; at < count; at += 1) {
    const key = keys[at] ?? 0;
    [beforeDay, beforeValue] = [day, value];
    day = Math.floor(key / dayShare);
    value = key - day * dayShare;
    if (at > 0 && day - fromDay < 7) continue;
    if (at > 0) gains[found++] = (value - fromValue) / (day - fromDay);
    fromDay = day;
    fromValue = value;
  }
  if (found < 4 || day - beforeDay < 1) return false;
  const median = gains.subarray(0, found).sort()[Math.floor(found / 2)] ?? 0;
  return (value - beforeValue) / (day - beforeDay) > 3.9 * median;
}

function couldBeSameVisit(table: MeterTable, a: number, b: number): boolean {
  const apart = (values: Float64Array, within: number) =>
    Math.abs((values[a] ?? Number.NaN) - (values[b] ?? Number.NaN)) > within;
  if (table.visitKind[a] === visitKinds.samples) return true;
  if (table.visitKind[a] === visitKinds.service)
    return (
      ((table.works[a] ?? 0) & (table.works[b] ?? 0)) !== 0 &&
      !apart(table.odometerKm, 80) &&
      !apart(table.engineHoursH, 8)
    );
  return !apart(table.fillL, Math.max(0.05, 0.011 * (table.fillL[a] ?? 0)));
}

/** Whether two sources may tell of the same visit. */
function mayRepeatVisits(table: MeterTable): boolean {
  let several = false;
  for (let at = 1; at < table.count && !several; at += 1) several = table.source[at] !== table.source[0];
  if (!several) return false;
  const { keys } = scratch;
  let count = 0;
  for (let at = 0; at < table.count; at += 1)
    if (table.visitKind[at] !== 0) keys[count++] = ((table.day[at] ?? 0) + dayOffset) * dayShare + at;
  const sorted = keys.subarray(0, count).sort();
  for (let i = 0; i < count; i += 1) {
    const day = Math.floor((sorted[i] ?? 0) / dayShare);
    const a = (sorted[i] ?? 0) - day * dayShare;
    for (let j = i + 1; j < count; j += 1) {
      const other = Math.floor((sorted[j] ?? 0) / dayShare);
      if (other - day > sameDays) break;
      const b = (sorted[j] ?? 0) - other * dayShare;
      if (table.source[a] === table.source[b] || table.visitKind[a] !== table.visitKind[b]) continue;
      if (couldBeSameVisit(table, a, b)) return true;
    }
  }
  return false;
}

/**
 * Tells quickly whether a unit's records so plainly agree that the checks over time (checkSequence) hold none of them.
 * Most units do. It errs to the safe side: false only means that the full checks have to look.
 * @param span the only service span of the unit number
 * @param table all its records; none tells of a replaced meter
 * @returns true: nothing to hold. Example: readings 100 km on day 1 and 90 km on day 9 → false
 */
export function isPlainSequence(span: UnitSpan, table: MeterTable): boolean {
  const firstDay = span.inServiceOn === null ? -Infinity : dayFromIso(span.inServiceOn);
  const lastDay = span.disposedOn === null ? Infinity : dayFromIso(span.disposedOn);
  for (let at = 0; at < table.count; at += 1) {
    const day = table.day[at] ?? 0;
    if (day < firstDay || day > lastDay) return false;
  }
  for (const meter of meters) {
    const isOdometer = meter === 'odometerKm';
    const keys = packed(table, table[meter], isOdometer ? span : null);
    if (!allFollow(keys, meterWords[meter].rule)) return false;
    if (isOdometer && lastRunsAhead(keys)) return false;
  }
  return !mayRepeatVisits(table);
}
