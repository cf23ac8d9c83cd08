import type { UnitHistory } from '../schema/history.ts';
import type { DutyRules } from './dutyRules.ts';
import type { UnitDuty } from './dutyUnit.ts';
import { tripFromShortShare } from './dutyOwn.ts';
import { columnOn } from './usageEnds.ts';
import { meanAmbientC, type Climate } from './usageClimate.ts';
import type { UsageTable } from './usageTable.ts';
import { dayOf } from './usageDay.ts';

/** Running sums of what readings tell of trips, towing and weather since the reading before; by day of the reading. */
export interface TripRecord {
  readonly days: Int32Array;
  readonly startKm: Float64Array;
  readonly starts: Float64Array;
  readonly shortShare: Float64Array;
  readonly shortCount: Float64Array;
  readonly towedKm: Float64Array;
  readonly towingKm: Float64Array;
  /** recorded less the site's usual temperature, °C, and how many */
  readonly warmer: Float64Array;
  readonly warmerCount: Float64Array;
}

interface Telling {
  readonly day: number;
  readonly since: number | null;
  readonly starts: number | null;
  readonly shortTripShare: number | null;
  readonly towingShare: number | null;
  readonly ambientC: number | null;
}

/**
 * Adds up what the readings tell of trips, towing and temperature; null where they tell nothing of it. The order of the
 * readings does not matter.
 */
export function tripRecord(
  history: UnitHistory,
  table: UsageTable,
  climate: Climate,
  asOfDay: number,
): TripRecord | null {
  const telling = history.readings.some(
    (r) => r.starts !== null || r.shortTripShare !== null || r.towingShare !== null || r.ambientC !== null,
  );
  if (!telling) return null;
  const rows = inOrder(history, asOfDay);
  const size = rows.length + 1;
  const columns = Array.from({ length: 8 }, () => new Float64Array(size));
  const [startKm, starts, shortShare, shortCount, towedKm, towingKm, warmer, warmerCount] = columns;
  const days = new Int32Array(size);
  days[0] = (rows[0]?.day ?? 0) - 1;
  rows.forEach((row, index) => {
    const at = index + 1;
    days[at] = row.day;
    for (const column of columns) column[at] = column[index];
    const km =
      row.since === null
        ? 0
        : columnOn(table.days, table.km, row.day) - columnOn(table.days, table.km, row.since);
    if (row.starts !== null && row.since !== null) {
      starts[at] += row.starts;
      startKm[at] += km;
    }
    if (row.shortTripShare !== null) {
      shortShare[at] += row.shortTripShare;
      shortCount[at]++;
    }
    if (row.towingShare !== null) {
      towedKm[at] += row.towingShare * km;
      towingKm[at] += km;
    }
    if (row.ambientC !== null) {
      const since = row.since === null ? row.day - 14 : Math.max(row.since, row.day - 92);
      warmer[at] += Math.max(-25, Math.min(25, row.ambientC - meanAmbientC(climate, since, row.day)));
      warmerCount[at]++;
    }
  });
  return { days, startKm, starts, shortShare, shortCount, towedKm, towingKm, warmer, warmerCount };
}

function inOrder(history: UnitHistory, asOfDay: number): readonly Telling[] {
  const rows = history.readings
    .map((reading) => ({ reading, day: dayOf(reading.readOn) }))
    .filter(({ day }) => day <= asOfDay)
    .sort(
      (a, b) =>
        a.day - b.day ||
        (a.reading.odometerKm ?? -1) - (b.reading.odometerKm ?? -1) ||
        (a.reading.starts ?? -1) - (b.reading.starts ?? -1),
    );
  let since: number | null = null;
  let today: number | null = null;
  return rows.map(({ reading, day }) => {
    if (today !== null && day > today) since = today;
    today = day;
    const { starts, shortTripShare, towingShare, ambientC } = reading;
    return { day, since, starts, shortTripShare, towingShare, ambientC };
  });
}

/** What a stretch of days was like. */
export interface TripPicture {
  readonly tripKm: number;
  readonly tripLogSd: number;
  readonly towingShare: number;
  readonly ambientC: number;
  readonly ambientSdC: number;
  readonly startsTold: boolean;
  readonly towingTold: boolean;
}

/** Index of the last row on or before a day. */
function rowOn(days: Int32Array, day: number): number {
  let low = 0;
  let high = days.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (days[middle] <= day) low = middle + 1;
    else high = middle;
  }
  return Math.max(0, low - 1);
}

/**
 * Trips, towing and temperature between two days: what was recorded in them, shrunk to the unit's own usual.
 * @param record sums of the readings, or null
 * @param distanceKm distance of the stretch, km
 */
export function tripsBetween(
  record: TripRecord | null,
  duty: UnitDuty,
  climate: Climate,
  rules: DutyRules,
  fromDay: number,
  toDay: number,
  distanceKm: number,
): TripPicture {
  const usualC = meanAmbientC(climate, fromDay, toDay);
  const siteSd = climate.recorded ? rules.sdAmbientSiteC : rules.sdAmbientC;
  const usual: TripPicture = {
    tripKm: duty.tripKm.value,
    tripLogSd: duty.tripKm.spread,
    towingShare: duty.towingShare.value,
    ambientC: usualC,
    ambientSdC: siteSd,
    startsTold: false,
    towingTold: false,
  };
  if (record === null) return usual;
  const end = record.days.length - 1;
  const from = rowOn(record.days, fromDay);
  const to = rowOn(record.days, toDay);
  const within = (column: Float64Array) => column[to] - column[from];
  const starts = within(record.starts);
  const shortCount = within(record.shortCount);
  let { tripKm, tripLogSd } = usual;
  if (starts >= 1 && within(record.startKm) > 0) {
    const weight = starts / (starts + rules.ownStartsWeight);
    tripKm = mixLog(tripKm, within(record.startKm) / starts, weight);
    tripLogSd *= Math.sqrt(1 - weight);
  } else if (shortCount > 0) {
    const weight = (10 * shortCount) / (10 * shortCount + rules.ownStartsWeight);
    tripKm = mixLog(
      tripKm,
      tripFromShortShare(within(record.shortShare) / shortCount, rules.shortTripKm),
      weight,
    );
    tripLogSd *= Math.sqrt(1 - weight / 2);
  }
  const towing = within(record.towingKm);
  const covered = distanceKm > 0 ? Math.min(1, towing / distanceKm) : 0;
  const towingShare =
    towing > 0
      ? covered * (within(record.towedKm) / towing) + (1 - covered) * usual.towingShare
      : usual.towingShare;
  const k = rules.ambientReadingsWeight;
  const everywhere = record.warmer[end] / (record.warmerCount[end] + k);
  const here = (within(record.warmer) + k * everywhere) / (within(record.warmerCount) + k);
  return {
    tripKm: Math.min(500, Math.max(0.3, tripKm)),
    tripLogSd,
    towingShare,
    ambientC: usualC + here,
    ambientSdC: siteSd * Math.sqrt(k / (k + within(record.warmerCount))),
    startsTold: starts >= 1,
    towingTold: covered > 0.5,
  };
}

const mixLog = (a: number, b: number, weight: number): number =>
  Math.exp((1 - weight) * Math.log(a) + weight * Math.log(Math.max(0.1, b)));
