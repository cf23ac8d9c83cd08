import type { OilFill } from './exposure.ts';
import { blendViscosity } from './viscosityBlend.ts';

/** An oil and how much of it. */
export interface FillPart {
  readonly fill: OilFill;
  /** L, 0 or above */
  readonly liters: number;
}

/**
 * The fresh properties of oils mixed in the sump: viscosity by Refutas, all else by share of volume.
 * Source: Refutas (Maples 2000) for viscosity; linear mixing of base and acid number is common practice, no source.
 * @param parts oils and litres
 * @returns the fill that they make together; 5 L of 10.2 with 1 L of 14.0 mm²/s → 10.75
 * Throws when no part has litres above 0.
 */
export function mixedFill(parts: readonly FillPart[]): OilFill {
  let liters = 0;
  for (const part of parts) {
    if (!(part.liters >= 0)) throw new Error(`liters must be 0 or above, got ${part.liters}`);
    liters += part.liters;
  }
  if (!(liters > 0)) throw new Error(`mixedFill liters must sum to above 0, got ${liters}`);
  const mean = (value: (fill: OilFill) => number) =>
    parts.reduce((sum, part) => sum + value(part.fill) * part.liters, 0) / liters;
  return {
    kv100: blendViscosity(parts.map((part) => ({ viscosity: part.fill.kv100, share: part.liters }))),
    baseNumber: mean((fill) => fill.baseNumber),
    acidNumber: mean((fill) => fill.acidNumber),
    dispersancyFactor: mean((fill) => fill.dispersancyFactor),
    chainWearFactor: mean((fill) => fill.chainWearFactor),
  };
}
