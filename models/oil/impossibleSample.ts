import type { Sample } from '../schema/sample.ts';
import type { ViscosityIndexBands } from './viscosityIndex.ts';
import { viscosityIndex } from './viscosityIndex.ts';

/** Why a sample cannot be what it says. */
export interface SampleFault {
  readonly code:
    | 'viscosity_order'
    | 'viscosity_index'
    | 'percent_sum'
    | 'percent_above_100'
    | 'below_zero'
    | 'no_oil'
    | 'number_out_of_range'
    | 'distance_over_odometer'
    | 'reported_before_sampled';
  readonly words: string;
}

const amounts = [
  ['baseNumberMgKohG', 'base number', 80],
  ['acidNumberMgKohG', 'acid number', 50],
  ['oxidationACm', 'oxidation', 300],
  ['nitrationACm', 'nitration', 300],
  ['ironPpm', 'iron', 10_000],
  ['copperPpm', 'copper', 10_000],
  ['leadPpm', 'lead', 10_000],
  ['aluminiumPpm', 'aluminium', 10_000],
  ['siliconPpm', 'silicon', 10_000],
  ['sodiumPpm', 'sodium', 20_000],
  ['potassiumPpm', 'potassium', 20_000],
  ['calciumPpm', 'calcium', 20_000],
  ['magnesiumPpm', 'magnesium', 20_000],
  ['zincPpm', 'zinc', 10_000],
  ['phosphorusPpm', 'phosphorus', 10_000],
  ['boronPpm', 'boron', 10_000],
  ['molybdenumPpm', 'molybdenum', 10_000],
] as const satisfies readonly (readonly [keyof Sample, string, number])[];
const percents = [
  ['fuelPercent', 'fuel'],
  ['sootPercent', 'soot'],
  ['waterPercent', 'water'],
] as const satisfies readonly (readonly [keyof Sample, string])[];

/**
 * Chemistry that no engine oil has, so that intake can hold the row with a reason: viscosity at 40 °C not above that at
 * 100 °C, a viscosity index outside 0..400, per cents above 100 alone or together, values below 0 or beyond any oil,
 * more distance on the oil than on the odometer, a report older than the sample.
 * @returns reasons; empty when nothing is impossible; 40 °C: 9, 100 °C: 10.2 → `viscosity_order`
 * Source: ranges by engineering judgement.
 */
export function impossibleSample(sample: Sample, bands: ViscosityIndexBands): readonly SampleFault[] {
  const faults: SampleFault[] = [];
  const add = (code: SampleFault['code'], words: string) => faults.push({ code, words });
  const { kv40Mm2S: kv40, kv100Mm2S: kv100 } = sample;
  if (kv100 !== null && !(kv100 >= 1.5 && kv100 <= 60))
    add('no_oil', `viscosity at 100 °C must be within 1.5..60 mm²/s for engine oil, got ${kv100}`);
  if (kv40 !== null && kv100 !== null) {
    if (kv40 <= kv100)
      add('viscosity_order', `viscosity at 40 °C must be above that at 100 °C (${kv100}), got ${kv40}`);
    else if (kv100 >= 2) {
      const index = viscosityIndex(kv40, kv100, bands);
      if (!(index >= 0 && index <= 400))
        add('viscosity_index', `viscosity index must be within 0..400, got ${Math.round(index)}`);
    }
  }
  let sum = 0;
  for (const [field, label] of percents) {
    const value = sample[field];
    if (value === null) continue;
    if (value < 0) add('below_zero', `${label} must be 0 or above, got ${value}`);
    else if (value > 100) add('percent_above_100', `${label} must be 100 % or below, got ${value}`);
    sum += Math.max(0, value);
  }
  if (sum > 100 && !faults.some((fault) => fault.code === 'percent_above_100'))
    add('percent_sum', `fuel, soot and water must sum to 100 % or below, got ${sum}`);
  for (const [field, label, most] of amounts) {
    const value = sample[field];
    if (value === null) continue;
    if (value < 0) add('below_zero', `${label} must be 0 or above, got ${value}`);
    else if (value > most) add('number_out_of_range', `${label} must be ${most} or below, got ${value}`);
  }
  const { oilKm, odometerKm, sampledOn, reportedOn } = sample;
  if (oilKm !== null && odometerKm !== null && oilKm > odometerKm)
    add(
      'distance_over_odometer',
      `distance on the oil must be within the odometer's ${odometerKm} km, got ${oilKm}`,
    );
  if (reportedOn !== null && reportedOn < sampledOn)
    add('reported_before_sampled', `report date must be on or after ${sampledOn}, got ${reportedOn}`);
  return faults;
}
