import type { Coefficients } from '../schema/coefficient.ts';

/** The catalog's value of an id; throws RangeError naming the id when the catalog has none. */
export function coefficientValue(coefficients: Coefficients, id: string): number {
  const value = coefficients[id];
  if (value === undefined) throw new RangeError(`coefficient ${id} must be in the catalog, got nothing`);
  return value;
}
