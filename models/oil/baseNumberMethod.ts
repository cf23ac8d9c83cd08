import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './conditionCoefficients.ts';

/** A base number as by ASTM D2896, the method of new oil. */
export interface ComparableBaseNumber {
  readonly value: number;
  /** standard deviation that the change of method adds, mg KOH/g */
  readonly methodSd: number;
  readonly method: 'D2896' | 'D4739' | 'unknown';
}

/**
 * Puts a base number on the scale of ASTM D2896. Used oil is often measured by D4739, which reads lower: the stated
 * offset is taken off. A method that is not told is taken half-way, with the doubt of not knowing.
 * @param value as reported, mg KOH/g
 * @param methodText as reported, e.g. "ASTM D4739"; null: not told
 * @returns 5.0 by D4739 → 6.0 ± 0.6
 * Source: offset and spread `evidence.method_offset*`, value from memory.
 */
export function comparableBaseNumber(
  value: number,
  methodText: string | null,
  coefficients: Coefficients,
): ComparableBaseNumber {
  const offset = coefficientValue(coefficients, 'evidence.method_offset');
  const sd = coefficientValue(coefficients, 'evidence.method_offset_sd');
  if (methodText !== null && /2896/.test(methodText)) return { value, methodSd: 0, method: 'D2896' };
  if (methodText !== null && /4739/.test(methodText))
    return { value: value - offset, methodSd: sd, method: 'D4739' };
  return { value: value - offset / 2, methodSd: Math.hypot(sd, offset / 2), method: 'unknown' };
}

/** A named method that is neither D2896 nor D4739: its scale is not comparable. "ASTM D974" → true; "" or "lab 4" → false. */
export function isIncomparableMethod(methodText: string | null): boolean {
  return methodText !== null && /d\s*-?\d{3,4}/i.test(methodText) && !/2896|4739/.test(methodText);
}
