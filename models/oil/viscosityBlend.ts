/** Constants of the Refutas blending index; defined by the method, not adjustable. Source: Maples (2000), Refutas. */
const slope = 14.534;
const offset = 10.975;
const shift = 0.8;

/**
 * Viscosity blending number by Refutas.
 * Formula: VBN = 14.534 · ln ln(v + 0.8) + 10.975.
 * @param viscosity kinematic viscosity v, mm²/s, above 0.2
 * @returns blending number; 10.2 → 23.70
 */
export function blendingNumber(viscosity: number): number {
  if (!(viscosity > 1 - shift)) throw new Error(`viscosity must be above 0.2 mm²/s, got ${viscosity}`);
  return slope * Math.log(Math.log(viscosity + shift)) + offset;
}

/** The viscosity (mm²/s) of a blending number; the inverse of {@link blendingNumber}. */
export function viscosityOfBlendingNumber(number: number): number {
  return Math.exp(Math.exp((number - offset) / slope)) - shift;
}

/**
 * Viscosity of a blend by Refutas at one temperature.
 * Formula: VBN of the blend = Σ share · VBN.
 * @param parts kinematic viscosity (mm²/s) and share by mass of each part; shares may be in any unit and are normalised
 * @returns mm²/s; 5 and 20 mm²/s at 60:40 → 8.109
 * Throws when there is no part with a share above 0 or a viscosity is not above 0.2.
 */
export function blendViscosity(
  parts: readonly { readonly viscosity: number; readonly share: number }[],
): number {
  let total = 0;
  let sum = 0;
  for (const part of parts) {
    if (!(part.share >= 0)) throw new Error(`share must be 0 or above, got ${part.share}`);
    total += part.share;
    sum += part.share * blendingNumber(part.viscosity);
  }
  if (!(total > 0)) throw new Error(`shares must sum to above 0, got ${total}`);
  return viscosityOfBlendingNumber(sum / total);
}

/**
 * Viscosity of oil with fuel in it.
 * @param viscosity of the clean oil, mm²/s
 * @param fuelViscosity of the fuel that stays in the oil at the same temperature, mm²/s
 * @param fuelPercent 0..100 % by mass
 * @returns mm²/s; 10.2 with 5 % of 0.6 → 7.99
 */
export function dilutedViscosity(viscosity: number, fuelViscosity: number, fuelPercent: number): number {
  const share = fuelPercent / 100;
  return viscosityOfBlendingNumber(
    (1 - share) * blendingNumber(viscosity) + share * blendingNumber(fuelViscosity),
  );
}
