import type { Coefficients } from '../schema/coefficient.ts';
import type { IntervalNote } from './bookInterval.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { Exposure, OilEngine, OilFill, RateMultipliers } from './exposure.ts';
import { fuelLevel } from './fuelLevel.ts';
import { oilLimits } from './limitReach.ts';

/** What fuel in the oil means for the interval. */
export interface FuelVerdict {
  /** on limits that do not see fuel: 1 none, down to the stated floor */
  readonly factor: number;
  /** fuel settles within days; false: it builds up over the charge and a change sets it back */
  readonly settles: boolean;
  /** the worst of the stretches */
  readonly levelPercent: number;
  readonly thinKv100: number;
  readonly notes: readonly IntervalNote[];
}

/**
 * Fuel, and viscosity lost to it, settle within days: changing oil does not cure them. Where the level passes the limit
 * the answer is to find the source or change the duty, and a factor on the limits that do not see fuel:
 * max(floor, least of 1, fuel limit / level, level viscosity / thin limit), the mean over the stretches by days.
 * Idling boils petrol off, yet must not look like a gain: the factor is that of the worse of the duty with and without it.
 * @param question the coming duty, engine, oil and rates
 * @returns all starts cold on short trips, fuel 10 % → factor 0.5, note `fuel_source`
 * Source: catalog `oil.limit_fuel`, `oil.limit_thinning`, `oil.fuel_severity_floor`; engineering judgement.
 */
export function fuelVerdict(
  question: {
    readonly coming: readonly Exposure[];
    readonly engine: OilEngine;
    readonly fill: OilFill;
    readonly rates: RateMultipliers;
  },
  coefficients: Coefficients,
): FuelVerdict {
  const { coming, engine, fill, rates } = question;
  const value = (id: string) => coefficientValue(coefficients, `oil.${id}`);
  const limits = oilLimits(fill, engine.fuelSystem, coefficients);
  const floor = value('fuel_severity_floor');
  const settlingHours = value('fuel_settling_hours');
  const season = coming.length > 1 ? 'At its worst in the months to come ' : 'On this duty ';
  let level = 0;
  let levelStill = 0;
  let thin = fill.kv100;
  let settles = true;
  let weighted = 0;
  let days = 0;
  for (const stretch of coming) {
    const asIs = fuelLevel(stretch, engine, fill, rates, coefficients);
    const still =
      stretch.idleHours > 0
        ? fuelLevel({ ...stretch, idleHours: 0 }, engine, fill, rates, coefficients)
        : asIs;
    let worst = 1;
    for (const { percent, thinKv100, settlingHours: hours } of [asIs, still]) {
      if (percent > 0 && hours > settlingHours) settles = false;
      worst = Math.min(worst, percent > 0 ? limits.fuelPercent / percent : 1, thinKv100 / limits.thinKv100);
    }
    level = Math.max(level, asIs.percent);
    levelStill = Math.max(levelStill, still.percent);
    thin = Math.min(thin, asIs.thinKv100);
    weighted += stretch.days * Math.max(floor, worst);
    days += stretch.days;
  }
  const factor = settles && days > 0 ? weighted / days : 1;
  const notes: IntervalNote[] = [];
  const shorter = ` Limits that do not see fuel are taken times ${factor.toFixed(2)} until then.`;
  const cure = 'Changing oil does not cure it: find the source or change the duty';
  const tooMuch = level > limits.fuelPercent;
  const tooThin = thin < limits.thinKv100;
  if (settles && tooMuch)
    notes.push({
      code: 'fuel_source',
      numbers: { fuelPercent: level, limitPercent: limits.fuelPercent, factor },
      words: `${season}fuel in the oil settles at ${level.toFixed(1)} % (limit ${limits.fuelPercent} %). ${cure}; diluted oil burns more easily.${shorter}`,
    });
  if (settles && tooThin)
    notes.push({
      code: 'viscosity_source',
      numbers: { kv100: thin, limitKv100: limits.thinKv100, factor },
      words: `${season}fuel thins the oil to ${thin.toFixed(1)} mm²/s at 100 °C (fresh ${fill.kv100.toFixed(1)}, least ${limits.thinKv100.toFixed(1)}). ${cure}.${tooMuch ? '' : shorter}`,
    });
  if (settles && !tooMuch && !tooThin && factor < 1)
    notes.push({
      code: 'fuel_held_by_idling',
      numbers: { fuelPercent: levelStill, limitPercent: limits.fuelPercent, factor },
      words: `Only idling keeps fuel in the oil within its limit; without it the level would be ${levelStill.toFixed(1)} %. Limits that do not see fuel are taken times ${factor.toFixed(2)}.`,
    });
  return { factor, settles, levelPercent: level, thinKv100: thin, notes };
}
