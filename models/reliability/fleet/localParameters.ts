/**
 * The parameters that one episode depends on. In derivative arrays they stand in this order: log shape, log scale of the family, clock
 * effects, log idle weight (if the clock has one), evidence effects.
 */
export interface LocalParameters {
  readonly shape: number;
  /** log of the characteristic life in prior lifetimes */
  readonly logScale: number;
  readonly clockEffects: Float64Array;
  readonly idleWeight: number;
  readonly evidenceEffects: Float64Array;
}

/** Effects are held inside what exp can carry, so that no draw, however far out, breaks the numbers. */
export function boundedExp(exponent: number): number {
  return Math.exp(exponent < -30 ? -30 : exponent > 30 ? 30 : exponent);
}
