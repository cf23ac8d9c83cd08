import { casesWords } from '../decisions/chanceWords.ts';
import type { CondemningLimits } from '../oil/condemningLimits.ts';
import { limitsFor } from '../oil/condemningLimits.ts';
import { coefficientValue } from '../oil/conditionCoefficients.ts';
import { fuelLevel } from '../oil/fuelLevel.ts';
import type { IntervalQuestion } from '../oil/intervalQuestion.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { monthNames, monthOfDay } from '../schema/day.ts';
import { normalCdf, rangeDeviations } from '../numeric/normal.ts';

/** Where fuel in the oil settles in the months to come. */
export interface FuelAhead {
  /** of the worst month and of the best, % */
  readonly mostPercent: number;
  readonly leastPercent: number;
  /** 80 % range of the worst month */
  readonly low: number;
  readonly high: number;
  /** months from now to the worst, 0..11 */
  readonly worstMonth: number;
  readonly cautionPercent: number;
  readonly condemnPercent: number;
  /** chance that a reading of the worst month passes the caution limit, 0..1 */
  readonly chancePastCaution: number;
}

/**
 * The level that fuel settles at in each of the next twelve months, and the chance that the worst of them reads past the
 * caution limit of samples: log-normal about the level, with the doubt of the unit's rate and the scatter of charges.
 * @param fuelLogSd doubt of the unit's fuel rate (logarithm)
 * @returns null where the chemistry is not calibrated or fuel does not settle within days
 * Source: catalog `oil.*_fuel*`, `evidence.charge_log_sd`; log-normal spread, common practice, no source.
 */
export function fuelAhead(
  { coming, engine, fill, rates }: IntervalQuestion,
  fuelLogSd: number,
  limits: CondemningLimits,
  coefficients: Coefficients,
): FuelAhead | null {
  if (!(coefficientValue(coefficients, `oil.calibrated.${engine.fuelSystem}`) > 0)) return null;
  const limit = limitsFor('fuelPercent', engine.fuelSystem, limits)[0];
  const settling = coefficientValue(coefficients, 'oil.fuel_settling_hours');
  const levels = coming.slice(0, 12).map((stretch) => fuelLevel(stretch, engine, fill, rates, coefficients));
  if (limit === undefined || levels.some(({ settlingHours }) => settlingHours > settling)) return null;
  const percents = levels.map(({ percent }) => percent);
  const mostPercent = Math.max(...percents);
  if (!(mostPercent > 0)) return null;
  const logSd = Math.hypot(fuelLogSd, coefficientValue(coefficients, 'evidence.charge_log_sd'));
  return {
    mostPercent,
    leastPercent: Math.min(...percents),
    low: mostPercent * Math.exp(-rangeDeviations * logSd),
    high: mostPercent * Math.exp(rangeDeviations * logSd),
    worstMonth: percents.indexOf(mostPercent),
    cautionPercent: limit.caution,
    condemnPercent: limit.condemn,
    chancePastCaution: normalCdf(Math.log(mostPercent / limit.caution) / logSd),
  };
}

/** Fuel to come as a caution, when its worst month is likely enough to read past the caution limit; else null. */
export function fuelCaution(
  ahead: FuelAhead | null,
  asOfDay: number,
  coefficients: Coefficients,
): string | null {
  if (ahead === null || ahead.chancePastCaution < coefficients['sample.fuel_caution_chance']) return null;
  const { mostPercent, low, high, worstMonth, cautionPercent, chancePastCaution } = ahead;
  const month = monthNames[monthOfDay(asOfDay + (worstMonth + 0.5) * (365.25 / 12))];
  return `fuel in the oil settles at about ${mostPercent.toFixed(1)} % in ${month} (${low.toFixed(1)} to ${high.toFixed(1)}), past the caution limit of ${cautionPercent} % in ${casesWords(chancePastCaution)}: longer trips or a warm engine, and a sample then`;
}
