/**
 * Rounds to significant digits, for numbers that leave the models.
 * @returns 12345.678 with 3 digits → 12300
 */
export function round(value: number, digits: number): number {
  if (value === 0 || !Number.isFinite(value)) return 0;
  return Number(value.toPrecision(digits));
}
