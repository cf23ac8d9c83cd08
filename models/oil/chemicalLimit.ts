import type { Coefficients } from '../schema/coefficient.ts';
import { engineHoursOf } from './amounts.ts';
import type { Exposure, OilEngine, OilFill, OilState, RateMultipliers } from './exposure.ts';
import { limitReach } from './limitReach.ts';

/** The limits that make up the chemical limit; acid number and viscosity belong to the recommended interval only. */
export const chemicalLimitOrder = [
  'base_number',
  'additive',
  'oxidation',
  'soot',
  'dispersancy',
  'fuel',
] as const;

/** How far the oil's chemistry alone would carry. */
export interface ChemicalLimit {
  /** km, engine hours and days of the duty until the first limit; null: no limit is ever reached */
  readonly distanceKm: number | null;
  readonly engineHours: number | null;
  readonly days: number | null;
  readonly governing: (typeof chemicalLimitOrder)[number] | null;
  /** multiples of the exposure until each limit, null: never */
  readonly times: Readonly<Record<(typeof chemicalLimitOrder)[number], number | null>>;
}

/**
 * The chemical limit D*: the largest distance with dispersancy used ≤ 1, base number ≥ 40 % of fresh and ≥ 2,
 * soot ≤ 1.5 % (diesel 3 %), oxidation ≤ 20 A/cm, additive ≥ 0.25 and fuel ≤ 5 %.
 * Kept apart from the recommended interval: it knows no book, hours or calendar, and fuel that settles beyond its
 * limit within days makes it short.
 * @param exposure the duty; only its mix matters
 * @param from the oil now; left out: fresh oil, so that the answer is a whole interval
 * @returns mixed duty on a GDI engine, 10000 km with 40 idle hours → 9030 km, 237 h, dispersancy
 * Throws as `oilCondition`. Source: limits of the catalog `oil.limit_*`.
 */
export function chemicalLimit(
  exposure: Exposure,
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  coefficients: Coefficients,
  from?: OilState,
): ChemicalLimit {
  const reach = limitReach(exposure, engine, fill, rates, coefficients, from).times;
  let governing: ChemicalLimit['governing'] = null;
  let least = Infinity;
  const times = {} as Record<(typeof chemicalLimitOrder)[number], number | null>;
  for (const name of chemicalLimitOrder) {
    times[name] = Number.isFinite(reach[name]) ? reach[name] : null;
    if (reach[name] < least) {
      least = reach[name];
      governing = name;
    }
  }
  if (governing === null) return { distanceKm: null, engineHours: null, days: null, governing, times };
  return {
    distanceKm: least * exposure.distanceKm,
    engineHours: least * engineHoursOf(exposure),
    days: least * exposure.days,
    governing,
    times,
  };
}
