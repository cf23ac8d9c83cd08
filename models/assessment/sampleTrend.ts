import { comparableBaseNumber } from '../oil/baseNumberMethod.ts';
import type { Measurand } from '../oil/condemningLimits.ts';
import { metalRate } from '../oil/metalRate.ts';
import { reportedValue } from '../oil/sampleVerdicts.ts';
import { trendRate, type TrendPoint } from '../oil/trendRate.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { JudgedSample } from './judgeSample.ts';
import { measurandWords } from './measurandWords.ts';
import type { UnitView } from './unitView.ts';

/** Measurands whose change goes on with distance, so that a trend carries forward; fuel and viscosity settle. */
export const trended = [
  'baseNumber',
  'oxidation',
  'sootPercent',
  'ironPpm',
] as const satisfies readonly Measurand[];
export type Trended = (typeof trended)[number];

/** How fast a measurand changes with distance, from sample to sample. */
export interface SampleTrend {
  readonly measurand: Trended;
  readonly samples: number;
  /** change against fresh oil per 1000 km: of the newest sample and in the mean; base number counts what is lost */
  readonly newest: number;
  readonly mean: number;
  /** how the change per 1000 km itself grows per day, the faster of latest and mean; 0: it does not, or one day only */
  readonly growthPerDay: number;
  /** lines through several samples of one charge: distance and compared value, newest charge first */
  readonly within: readonly (readonly TrendPoint[])[];
}

/**
 * Trend of a measurand over a unit's samples in the manner of ASTM D7669: the change per 1000 km of each charge, how
 * that moves from sample to sample, and the rate between samples of one charge.
 * @param samples with their charge and distance known; others are passed over
 * @returns null when no sample has the measurand on a known distance
 */
export function sampleTrend(
  { fillOf }: Pick<UnitView, 'fillOf'>,
  samples: readonly JudgedSample[],
  measurand: Trended,
  c: Coefficients,
): SampleTrend | null {
  const charges = new Map<number, (TrendPoint & { readonly day: number })[]>();
  let count = 0;
  for (const { sample, sampled } of samples) {
    const value = reportedValue(sample, measurand);
    if (value === null || sampled === null || sampled.oilKm === null) continue;
    if (sampled.oilKm <= c['sample.fresh_km']) continue;
    const { fill, engine } = fillOf(sampled.charge);
    const compared =
      measurand === 'baseNumber'
        ? fill.baseNumber - comparableBaseNumber(value, sample.baseNumberMethod, c).value
        : measurand === 'ironPpm'
          ? metalRate(value, sampled.oilKm, sampled.topUpLiters, engine.sumpLiters).correctedPpm
          : value;
    count += 1;
    const line = charges.get(sampled.index) ?? [];
    line.push({ use: sampled.oilKm, value: compared, day: dayFromIso(sample.sampledOn) });
    charges.set(sampled.index, line);
  }
  // one rate a charge, from its oldest oil: samples on the way are the line within it
  const rates = [...charges.values()]
    .map((line) => line.reduce((far, point) => (point.use > far.use ? point : far)))
    .map(({ use, value, day }): TrendPoint => ({ use: day, value: value / (use / 1000) }))
    .sort((a, b) => a.use - b.use);
  if (rates.length === 0) return null;
  const severalDays = rates[rates.length - 1].use > rates[0].use;
  const moving = severalDays ? trendRate(rates, null) : null;
  return {
    measurand,
    samples: count,
    newest: rates[rates.length - 1].value,
    mean: rates.reduce((sum, { value }) => sum + value, 0) / rates.length,
    growthPerDay: moving === null ? 0 : Math.max(moving.latest, moving.mean),
    within: [...charges]
      .sort((a, b) => b[0] - a[0])
      .map(([, line]) => line)
      .filter((line) => new Set(line.map(({ use }) => use)).size > 1),
  };
}

/**
 * What the change against fresh oil would come to at a distance: the rate of the newest sample, or the mean where that
 * is higher, carried on by its growth; a falling rate is not credited. Two samples of one charge with a steeper line
 * come first.
 * @param km distance on the oil
 * @param aheadDays days until then
 */
export function trendAt(trend: SampleTrend, km: number, aheadDays: number): number {
  const rate = Math.max(trend.newest, trend.mean) + Math.max(0, trend.growthPerDay) * aheadDays;
  const byCharges = (rate * km) / 1000;
  const lines = trend.within.map((line) => {
    const { latest, mean } = trendRate(line, null);
    const last = line.reduce((far, point) => (point.use > far.use ? point : far));
    return last.value + Math.max(0, latest, mean) * Math.max(0, km - last.use);
  });
  return Math.max(byCharges, ...lines);
}

/** A trend in words: "oxidation rises 0.42 A/cm per 1000 km (mean 0.38 of 4 samples), growing". */
export function trendWords({ measurand, samples, newest, mean, growthPerDay }: SampleTrend): string {
  const { label, unit } = measurandWords[measurand];
  const figure = (value: number): string => String(Number(value.toPrecision(2)));
  const verb = measurand === 'baseNumber' ? 'falls' : 'rises';
  if (samples < 2) return `${label} ${verb} ${figure(newest)} ${unit} per 1000 km (one sample, no trend yet)`;
  // less than a third in a year is within what samples scatter
  const grows = growthPerDay * 365 > 0.33 * Math.abs(mean) ? ', faster from sample to sample' : '';
  return `${label} ${verb} ${figure(newest)} ${unit} per 1000 km in the newest sample, ${figure(mean)} in the mean of ${samples}${grows}`;
}
