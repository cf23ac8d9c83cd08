import type { Coefficients } from '../schema/coefficient.ts';
import type { IntervalNote } from './bookInterval.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { Exposure, OilEngine, OilFill, RateMultipliers } from './exposure.ts';
import { limitReach, oilLimits } from './limitReach.ts';

/** What fuel in the oil means for the interval. */
export interface FuelVerdict {
  /** on limits that do not see fuel: 1 none, down to the stated floor */
  readonly factor: number;
  readonly levelPercent: number;
  readonly thinKv100: number;
  readonly notes: readonly IntervalNote[];
}

/**
 * Fuel, and viscosity lost to it, settle within days: changing oil does not cure them. Where the level passes the limit
 * the answer is to find the source or change the duty, and a factor on the limits that do not see fuel:
 * max(floor, least of 1, fuel limit / level, level viscosity / thin limit).
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
  const { engine, fill, rates } = question;
  const value = (id: string) => coefficientValue(coefficients, `oil.${id}`);
  const limits = oilLimits(fill, engine.fuelSystem, coefficients);
  let level = 0;
  let thin = fill.kv100;
  let settles = true;
  for (const stretch of question.coming)
    for (const idleHours of stretch.idleHours > 0 ? [0, stretch.idleHours] : [0]) {
      const reach = limitReach({ ...stretch, idleHours }, engine, fill, rates, coefficients);
      level = Math.max(level, reach.fuelLevelPercent);
      thin = Math.min(thin, reach.levelThinKv100);
      if (reach.fuelLevelPercent > 0 && reach.fuelSettlingHours > value('fuel_settling_hours'))
        settles = false;
    }
  const notes: IntervalNote[] = [];
  const tooMuch = level > limits.fuelPercent;
  const tooThin = thin < limits.thinKv100;
  const factor =
    settles && (tooMuch || tooThin)
      ? Math.max(
          value('fuel_severity_floor'),
          Math.min(1, limits.fuelPercent / level, thin / limits.thinKv100),
        )
      : 1;
  const shorter =
    factor < 1 ? ` Limits that do not see fuel are taken times ${factor.toFixed(2)} until then.` : '';
  const settling = settles ? 'settles at' : 'rises toward';
  const cure = settles ? 'Changing oil does not cure it: find' : 'Changing oil only sets it back: find';
  if (tooMuch)
    notes.push({
      code: 'fuel_source',
      numbers: { fuelPercent: level, limitPercent: limits.fuelPercent, factor },
      words: `On this duty fuel in the oil ${settling} ${level.toFixed(1)} % (limit ${limits.fuelPercent} %). ${cure} the source or change the duty; diluted oil burns more easily.${shorter}`,
    });
  if (tooThin)
    notes.push({
      code: 'viscosity_source',
      numbers: { kv100: thin, limitKv100: limits.thinKv100, factor },
      words: `Fuel thins the oil to ${thin.toFixed(1)} mm²/s at 100 °C (fresh ${fill.kv100.toFixed(1)}, least ${limits.thinKv100.toFixed(1)}). ${cure} the source of the fuel or change the duty.${tooMuch ? '' : shorter}`,
    });
  return { factor, levelPercent: level, thinKv100: thin, notes };
}
