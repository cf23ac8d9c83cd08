import type { OilCharge } from '../oil/charge.ts';
import { partOfExposure } from '../oil/condition.ts';
import { carriedOver, conditionThrough, type ChargeSegment } from '../oil/conditionThrough.ts';
import { expectedMeasurand, noiseSd, type ModelledMeasurand } from '../oil/expectedMeasurand.ts';
import type { OilState, RateMultipliers } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { rangeDeviations } from '../numeric/normal.ts';
import type { UnitView } from './unitView.ts';

/** A reading with the range that holds it in 4 of 5 cases. */
export interface ExpectedReading {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** The rates that move what a laboratory reads. */
const moved = [
  'baseNumberLife',
  'oxidation',
  'fuel',
  'soot',
] as const satisfies readonly (keyof RateMultipliers)[];

/** The oil of a charge on a day: at the unit's rates, and with each rate one standard deviation up. */
export interface OilOnDay {
  readonly base: OilState;
  readonly up: readonly OilState[];
}

/**
 * The oil of a charge on a day by the model, with the unit's own rates after all evidence.
 * @param oilKm distance on the oil by the laboratory, km; where it is far from the records' it comes first; null: by the records
 */
export function oilOnDay(
  view: Pick<UnitView, 'timeline' | 'states' | 'fillOf'>,
  index: number,
  day: number,
  oilKm: number | null,
  coefficients: Coefficients,
): OilOnDay {
  const { timeline, states, fillOf } = view;
  const charge = timeline.charges[index];
  const { fill, engine } = fillOf(charge);
  const before = index === 0 ? null : states.chargeEnds[index - 1];
  const from = before === null ? undefined : carriedOver(before, engine, fill, coefficients);
  const segments = segmentsUntil(view, charge, day, oilKm, coefficients['sample.other_oil_share']);
  const run = (rates: RateMultipliers): OilState =>
    conditionThrough(segments, engine, fill, rates, coefficients, from).state;
  return {
    base: run(states.rates),
    up: moved.map((rate) =>
      run({ ...states.rates, [rate]: states.rates[rate] * Math.exp(states.ratesLogSd[rate]) }),
    ),
  };
}

/** @param otherOilShare a difference of this share between both distances tells of a drain that the records do not hold */
function segmentsUntil(
  { timeline }: Pick<UnitView, 'timeline'>,
  charge: OilCharge,
  day: number,
  oilKm: number | null,
  otherOilShare: number,
): ChargeSegment[] {
  const end = Math.min(day, charge.endDay);
  if (end <= charge.startDay) return [];
  const whole = timeline.exposureBetween(charge.startDay, end);
  const done = whole.distanceKm;
  if (oilKm !== null && done > 0 && Math.abs(oilKm - done) > otherOilShare * Math.max(oilKm, done))
    return [{ exposure: partOfExposure(whole, oilKm / done) }];
  const segments: ChargeSegment[] = [];
  let from = charge.startDay;
  for (const topUp of charge.topUps) {
    if (topUp.day <= from || topUp.day >= end) continue;
    segments.push({ exposure: timeline.exposureBetween(from, topUp.day), topUpLitersAfter: topUp.liters });
    from = topUp.day;
  }
  segments.push({ exposure: timeline.exposureBetween(from, end) });
  return segments;
}

/**
 * What a laboratory should read, with the doubt of the unit's rates and of the reading itself.
 * Formula: range = ±1.28·√(Σ (change by one sd of each rate)² + (sd of the reading)²).
 */
export function expectedReading(
  view: Pick<UnitView, 'fillOf' | 'timeline'>,
  index: number,
  oil: OilOnDay,
  measurand: ModelledMeasurand,
  basis: { readonly methodKnown: boolean; readonly sampleKmKnown: boolean },
  coefficients: Coefficients,
): ExpectedReading {
  const charge = view.timeline.charges[index];
  const { fill, engine } = view.fillOf(charge);
  const of = (state: OilState): number =>
    expectedMeasurand(state, fill, measurand, engine.fuelSystem, coefficients);
  const value = of(oil.base);
  const rates = oil.up.reduce((sum, state) => sum + (of(state) - value) ** 2, 0);
  const fresh =
    measurand === 'baseNumber' || measurand === 'acidNumber' || measurand === 'kv100' ? fill[measurand] : 0;
  const scatter = coefficients['evidence.charge_log_sd'] * (measurand === 'kv100' ? 0 : value - fresh);
  const noise = noiseSd(measurand, value, basis, coefficients, value - fresh);
  const half = rangeDeviations * Math.sqrt(rates + scatter ** 2 + noise ** 2);
  return { value, low: Math.max(0, value - half), high: value + half };
}
