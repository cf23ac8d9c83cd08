import type { FuelSystem, OilEngine, OilFill } from '../oil/exposure.ts';
import { mixedFill } from '../oil/mixedFill.ts';
import { fillFrom, type KnownFill, type OilCatalog, type RequiredOil } from '../oil/oilFill.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { Engine } from '../schema/engine.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { FillAndEngine, FillOf } from '../wear/segments.ts';

/** Fuel system taken for an engine that is not described: the middle of the petrol ones. */
const assumedFuelSystem: FuelSystem = 'GDI';

/** What the engine asks for. */
export function requiredOilOf(engine: Engine | null): RequiredOil {
  return {
    grade: engine?.requiredGrade ?? null,
    category: engine?.requiredCategory ?? null,
    fuelSystem: engine?.fuelSystem ?? assumedFuelSystem,
  };
}

/** The engine as the oil sees it; what is not described is assumed from the catalog. */
export function oilEngineOf(engine: Engine | null, coefficients: Coefficients): OilEngine {
  const displacementL = engine?.displacementL ?? coefficients['assumed.displacement_l'];
  return {
    fuelSystem: engine?.fuelSystem ?? assumedFuelSystem,
    displacementL,
    sumpLiters: engine?.sumpL ?? displacementL * coefficients['assumed.sump_l_per_displacement'],
    fuelSulfurPpm: coefficients['assumed.fuel_sulfur_ppm'],
  };
}

/** Reads what a record says of an oil; each distinct text and requirement is worked out once. */
export type FillReader = (grade: string | null, category: string | null, required: RequiredOil) => KnownFill;

/** @returns a reader with a memory of its own, for one run over a fleet */
export function fillReader(catalog: OilCatalog, coefficients: Coefficients): FillReader {
  const known = new Map<string, KnownFill>();
  return (grade, category, required) => {
    const key = [grade, category, required.grade, required.category, required.fuelSystem].join('|');
    const earlier = known.get(key);
    if (earlier !== undefined) return earlier;
    const made = fillFrom(grade, category, required, catalog, coefficients);
    known.set(key, made);
    return made;
  };
}

/**
 * Makes the reader of fills of one unit: the oil of each charge with top-ups of another grade mixed in, and a low level
 * found during the charge as a smaller sump.
 */
export function fillsOfUnit(history: UnitHistory, readFill: FillReader, coefficients: Coefficients): FillOf {
  const engine = oilEngineOf(history.engine, coefficients);
  const required = requiredOilOf(history.engine);
  const fillNamed = (grade: string | null, category: string | null): OilFill =>
    readFill(grade, category, required).fill;
  return (charge): FillAndEngine => {
    const fill = fillNamed(charge.grade, charge.category);
    const others = charge.topUps.filter(
      (topUp) => topUp.grade !== null && topUp.grade !== charge.grade && topUp.liters > 0,
    );
    const least = engine.sumpLiters * coefficients['assumed.least_sump_share'];
    return {
      fill:
        others.length === 0
          ? fill
          : mixedFill([
              { fill, liters: engine.sumpLiters },
              ...others.map((topUp) => ({
                fill: fillNamed(topUp.grade, charge.category),
                liters: topUp.liters,
              })),
            ]),
      engine:
        charge.levelLowLiters > 0
          ? { ...engine, sumpLiters: Math.max(least, engine.sumpLiters - charge.levelLowLiters / 2) }
          : engine,
    };
  };
}
