import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './coefficientValue.ts';

/**
 * Continuous discount rate a month from the rate a year: ln(1 + r)/12; a rate below 0 is taken as 0.
 * @param coefficients `money.discount_rate`, share a year
 * @returns 0 or more a month; 5 % a year → 0.00407
 * Source: compound interest.
 */
export function monthlyRate(coefficients: Coefficients): number {
  return Math.log1p(Math.max(0, coefficientValue(coefficients, 'money.discount_rate'))) / 12;
}
