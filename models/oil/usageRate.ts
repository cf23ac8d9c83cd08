import { median } from './dutyEvidence.ts';
import type { DutyRules } from './dutyRules.ts';

/** The rate of use a unit goes on with. */
export interface UseRate {
  /** equivalent km a day */
  readonly perDay: number;
  /** standard deviation of the logarithm of the rate itself */
  readonly logSd: number;
  /** spread from one four-week period to another (logarithm) */
  readonly periodLogSd: number;
  /** weight of the unit's own records, 0..1 */
  readonly own: number;
}

const periodDays = 28;
const smallest = 0.05;

/** Mean that lets values far from the middle count less (Huber weights about the median). */
export function robustMean(values: readonly number[], width: number): number {
  const middle = median(values) ?? 0;
  const deviation = median(values.map((value) => Math.abs(value - middle))) ?? 0;
  const scale = Math.max(1.4826 * deviation, 0.1 * Math.abs(middle), 1e-9);
  let weights = 0;
  let sum = 0;
  for (const value of values) {
    const weight = Math.min(1, (width * scale) / Math.max(1e-12, Math.abs(value - middle)));
    weights += weight;
    sum += weight * value;
  }
  return sum / weights;
}

/**
 * Rate of use from a cumulative meter: the robust mean of the four-week periods of the last twelve months, with the
 * two years before that and comparable units shrunk in by their variances on the log scale.
 * @param totalOn cumulative use, equivalent km, on any day of the known stretch
 * @param fromDay first day of the known stretch
 * @param toDay last day of the known stretch
 * @param readings days with a reading, in order: how many separate periods they really tell
 * @param group comparable units: rate and spread of its logarithm
 * @param rules catalog values
 * @returns e.g. thirteen periods at 60 km a day, group 45 with spread 0.6 → 59.6, spread 0.1
 * Source: Huber weights (Annals of Mathematical Statistics 35, 1964); precision weighting, common practice.
 */
export function useRate(
  totalOn: (day: number) => number,
  fromDay: number,
  toDay: number,
  readings: ArrayLike<number>,
  group: { readonly perDay: number; readonly logSd: number },
  rules: DutyRules,
): UseRate {
  const groupVariance = group.logSd ** 2;
  const groupLog = Math.log(Math.max(smallest, group.perDay));
  if (toDay - fromDay < 7)
    return { perDay: group.perDay, logSd: group.logSd, periodLogSd: rules.usePeriodLogSd, own: 0 };
  const periods = (newest: number, oldest: number): number[] => {
    const rates: number[] = [];
    for (let end = newest; end > oldest; end -= periodDays) {
      const begin = Math.max(oldest, end - periodDays);
      if (rates.length > 0 && end - begin < periodDays / 2) break;
      rates.push((totalOn(end) - totalOn(begin)) / (end - begin));
    }
    return rates;
  };
  const yearBack = Math.max(fromDay, toDay - 13 * periodDays);
  const rates = periods(toDay, yearBack);
  const told = Math.max(1, Math.min(rates.length, separatePeriods(readings, yearBack, toDay)));
  const recent = Math.max(smallest, robustMean(rates, rules.useHuberWidth));
  const periodLogSd = ownPeriodSpread(rates, recent, told, rules);
  const period = periodLogSd ** 2;
  let precision = 1 / groupVariance;
  let sum = groupLog / groupVariance;
  const ownPrecision: number[] = [1 / (period / told + 0.01 ** 2)];
  sum += ownPrecision[0] * Math.log(recent);
  if (yearBack > fromDay + periodDays) {
    const older = periods(yearBack, Math.max(fromDay, yearBack - 26 * periodDays));
    const separate = Math.max(1, Math.min(older.length, separatePeriods(readings, fromDay, yearBack)));
    ownPrecision.push(1 / (period / separate + 2 * rules.useDriftLogSd ** 2));
    sum += ownPrecision[1] * Math.log(Math.max(smallest, robustMean(older, rules.useHuberWidth)));
  }
  const ownTotal = ownPrecision.reduce((total, value) => total + value, 0);
  precision += ownTotal;
  return {
    perDay: Math.exp(sum / precision),
    logSd: Math.sqrt(1 / precision),
    periodLogSd,
    own: ownTotal / precision,
  };
}

/** The unit's own spread between periods, shrunk to the catalog's; few separate readings leave it there. */
function ownPeriodSpread(rates: readonly number[], mean: number, told: number, rules: DutyRules): number {
  const assumed = rules.usePeriodLogSd;
  const prior = rules.sdWeight;
  let squares = 0;
  for (const rate of rates) squares += Math.min(1, ((rate - mean) / mean) ** 2);
  const own = (squares / rates.length) * told;
  const spread = Math.sqrt((prior * assumed ** 2 + own) / (prior + told));
  // smooth stretches between rare readings must not look steady
  return told < rates.length ? Math.max(assumed, spread) : Math.max(assumed / 2, spread);
}

/** In how many separate four-week periods of a stretch there is a reading. */
function separatePeriods(readings: ArrayLike<number>, fromDay: number, toDay: number): number {
  let count = 0;
  let next = fromDay;
  for (let i = 0; i < readings.length; i++) {
    const day = readings[i];
    if (day <= fromDay || day > toDay) continue;
    if (day >= next) {
      count++;
      next = Math.max(next + periodDays, day + periodDays / 2);
    }
  }
  return count;
}
