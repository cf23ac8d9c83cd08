import type { Coefficients } from '../schema/coefficient.ts';
import { agingRatesInto, emptyAgingRates } from './agingRates.ts';
import { conditionCoefficients } from './conditionCoefficients.ts';
import type { Exposure, OilEngine, OilFill, RateMultipliers } from './exposure.ts';
import { dilutedViscosity } from './viscosityBlend.ts';

/** Where fuel in the oil settles on a duty. */
export interface FuelLevel {
  /** fuel after a very long time, inflow over loss, up to 100 % */
  readonly percent: number;
  /** thin viscosity at that level, mm²/s at 100 °C */
  readonly thinKv100: number;
  /** engine hours in which fuel comes within 37 % of that level; Infinity: nothing leaves */
  readonly settlingHours: number;
}

/** Beyond this the blending formula is not followed, %. */
const mostBlended = 60;
const scratch = emptyAgingRates();

/**
 * The level at which fuel that comes in and fuel that boils off balance: inflow / loss.
 * @returns short trips with all starts cold on a turbocharged direct-injection engine → 10.1 %, 6.2 mm²/s, some 18 h
 * Throws as `agingRatesInto`. Source: catalog `oil.*_fuel`, `oil.*_fuel_loss`; engineering judgement.
 */
export function fuelLevel(
  exposure: Exposure,
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  coefficients: Coefficients,
): FuelLevel {
  const c = conditionCoefficients(coefficients);
  const r = scratch;
  agingRatesInto(exposure, engine, fill, rates, c, r);
  const percent = r.fuelDecay > 1e-9 ? Math.min(100, r.fuelInflow / r.fuelDecay) : r.fuelInflow > 0 ? 100 : 0;
  const { fuelViscosity } = c.fuelSystems[engine.fuelSystem];
  return {
    percent,
    thinKv100: dilutedViscosity(fill.kv100, fuelViscosity, Math.min(mostBlended, percent)) * c.shear,
    settlingHours: r.fuelDecay > 0 ? r.hours / r.fuelDecay : Infinity,
  };
}
