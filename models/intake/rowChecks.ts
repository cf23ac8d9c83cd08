import { isIncomparableMethod } from '../oil/baseNumberMethod.ts';
import { impossibleSample } from '../oil/impossibleSample.ts';
import type { RecordKind } from '../schema/kinds.ts';
import { sample } from '../schema/sample.ts';
import type { CellValue } from './cellReaders.ts';
import { reason, type Reason } from './reasons.ts';

type Fields = Readonly<Record<string, CellValue>>;
type RowCheck = (record: Fields, faults: Reason[]) => void;

const numberOf = (record: Fields, field: string) => {
  const value = record[field];
  return typeof value === 'number' ? value : null;
};
const textOf = (record: Fields, field: string) => {
  const value = record[field];
  return typeof value === 'string' ? value : null;
};

/** Idle hours are part of engine hours; a small excess is two clocks that round. */
function idleWithinHours(record: Fields, faults: Reason[]): void {
  const idle = numberOf(record, 'idleHoursH');
  const hours = numberOf(record, 'engineHoursH');
  if (idle !== null && hours !== null && idle > hours + 0.5 + 0.001 * hours)
    faults.push(
      reason('idle_above_hours', 'idleHoursH', `idle hours ${idle} are more than engine hours ${hours}`),
    );
}

/** `earlier` may not lie after `later`. */
function inOrder(earlier: string, later: string): RowCheck {
  return (record, faults) => {
    const first = textOf(record, earlier);
    const second = textOf(record, later);
    if (first !== null && second !== null && first > second)
      faults.push(reason('date_order', later, `${later} ${second} lies before ${earlier} ${first}`));
  };
}

/** Engine oils keep a ratio of 3 to 15 between 40 °C and 100 °C; ASTM D2270 knows none below 2 at these thicknesses. */
function viscosities(record: Fields, faults: Reason[]): void {
  const hot = numberOf(record, 'kv100Mm2S');
  const warm = numberOf(record, 'kv40Mm2S');
  if (hot === null || warm === null) return;
  const found = `viscosity is ${warm} mm²/s at 40 °C and ${hot} mm²/s at 100 °C`;
  if (warm <= hot) faults.push(reason('viscosity_order', 'kv40Mm2S', found));
  else if (warm < 2 * hot || warm > 25 * hot) faults.push(reason('viscosity_unlikely', 'kv40Mm2S', found));
}

function percentSum(record: Fields, faults: Reason[]): void {
  const sum = ['fuelPercent', 'sootPercent', 'waterPercent'].reduce(
    (total, field) => total + (numberOf(record, field) ?? 0),
    0,
  );
  if (sum > 100) faults.push(reason('percent_sum', 'fuelPercent', `fuel, soot and water add up to ${sum} %`));
}

function oilDistance(record: Fields, faults: Reason[]): void {
  const oil = numberOf(record, 'oilKm');
  const odometer = numberOf(record, 'odometerKm');
  if (oil !== null && odometer !== null && oil > odometer + 1)
    faults.push(
      reason(
        'oil_distance_above_odometer',
        'oilKm',
        `oil distance ${oil} km is more than the odometer's ${odometer} km`,
      ),
    );
}

/** Above the base number of any new oil for road vehicles (6 to 16) by more than the error of its method; mg KOH/g. */
const mostBaseNumber = 20;

/**
 * Chemistry that no engine oil has. What the other checks here say more plainly (the order of viscosities, sums,
 * distances, dates) is left to them.
 */
function chemistry(record: Fields, faults: Reason[]): void {
  const base = numberOf(record, 'baseNumberMgKohG');
  if (base !== null && base > mostBaseNumber)
    faults.push(reason('base_above_new_oil', 'baseNumberMgKohG', `base number is ${base} mg KOH/g`));
  const method = record.baseNumberMethod;
  if (base !== null && typeof method === 'string' && isIncomparableMethod(method))
    faults.push(reason('base_other_method', 'baseNumberMethod', `base number is by ${method}`));
  const read = sample.safeParse({ ...record, kv40Mm2S: null });
  if (!read.success) return;
  for (const { code, words } of impossibleSample(read.data, []))
    if (code === 'no_oil') faults.push(reason('chemistry_impossible', 'kv100Mm2S', words));
    else if (
      code === 'number_out_of_range' &&
      !(words.startsWith('base number') && (base ?? 0) > mostBaseNumber)
    )
      faults.push(reason('chemistry_impossible', null, words));
}

/** Checks that compare the fields of one row with each other, per kind. */
export const rowChecks: Partial<Record<RecordKind, readonly RowCheck[]>> = {
  units: [inOrder('inServiceOn', 'disposedOn'), inOrder('acquiredOn', 'disposedOn')],
  readings: [idleWithinHours],
  service: [idleWithinHours],
  samples: [chemistry, viscosities, percentSum, oilDistance, inOrder('sampledOn', 'reportedOn')],
  technicians: [inOrder('awayFrom', 'awayTo')],
};
