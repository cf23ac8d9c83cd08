import { oilCondition } from '../oil/condition.ts';
import type { Exposure, OilState, RateMultipliers } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { rangeDeviations } from '../numeric/normal.ts';
import type { FillAndEngine } from './segments.ts';
import type { Ranged } from './states.ts';

/** Oil values that a laboratory reports, each with its 80 % range. */
export type OilRange = Readonly<
  Record<'baseNumber' | 'acidNumber' | 'oxidation' | 'fuelPercent' | 'sootPercent' | 'kv100', Ranged>
>;

const values = ['baseNumber', 'acidNumber', 'oxidation', 'fuelPercent', 'sootPercent', 'kv100'] as const;
const rates = ['baseNumberLife', 'oxidation', 'fuel', 'soot'] as const;
const step = 0.2;

/**
 * The oil at the end of an exposure with 80 % ranges from the spread of the unit's rates and the scatter from charge to charge.
 * Method: slopes of each value against the logarithm of each rate, spreads of rate and charge added in squares; base and
 * acid number from their change, the others as they are, on the scale of logarithms. Source: propagation of error, common practice.
 * @param believed rates and their log-sds, as `UnitStates` has them
 * @param from oil at the start; left out: fresh
 * @returns values with ranges; a known rate leaves only the scatter
 * Throws as `oilCondition`.
 */
export function oilRange(
  exposure: Exposure,
  { fill, engine }: FillAndEngine,
  believed: { readonly rates: RateMultipliers; readonly ratesLogSd: RateMultipliers },
  coefficients: Coefficients,
  from?: OilState,
): OilRange {
  const at = oilCondition(exposure, engine, fill, believed.rates, coefficients, from).state;
  const moved = rates.map((rate) => {
    const raised = { ...believed.rates, [rate]: believed.rates[rate] * Math.exp(step) };
    return oilCondition(exposure, engine, fill, raised, coefficients, from).state;
  });
  const scatter = coefficients['evidence.charge_log_sd'];
  const ranges: Partial<Record<(typeof values)[number], Ranged>> = {};
  for (const value of values) {
    const lost = value === 'baseNumber' ? fill.baseNumber : value === 'acidNumber' ? fill.acidNumber : 0;
    const size = Math.max(1e-9, Math.abs(at[value] - lost));
    // fuel comes and goes within days, so that its level scatters more than what adds up over a charge
    let square = value === 'fuelPercent' ? 2 * scatter * scatter : 0;
    rates.forEach((rate, i) => {
      const slope = Math.log(Math.max(1e-9, Math.abs(moved[i][value] - lost)) / size) / step;
      square += slope * slope * (believed.ratesLogSd[rate] ** 2 + scatter * scatter);
    });
    const factor = Math.exp(rangeDeviations * Math.sqrt(square));
    const sign = at[value] < lost ? -1 : 1;
    const ends = [lost + (sign * size) / factor, lost + sign * size * factor];
    ranges[value] = {
      value: at[value],
      low: Math.max(0, Math.min(ends[0], ends[1])),
      high: Math.max(ends[0], ends[1]),
    };
  }
  return ranges as OilRange;
}
