/**
 * A fault code in the form of SAE J2012 / ISO 15031-6: one of P, B, C, U, a digit 0 to 3, three hexadecimal digits.
 * Blanks, hyphens and a failure type byte behind it are left out; a letter O in place of a zero is taken as zero.
 * @returns null for anything else
 * @example readCode('p-0011') → 'P0011'
 */
export function readCode(cell: string): string | null {
  const bare = cell
    .toUpperCase()
    .replace(/^DTC[:\s-]*/, '')
    .replace(/[\s.-]+/g, '');
  const found = /^([PBCU])([0-9A-FO]{4})([0-9A-F]{2})?$/.exec(bare);
  if (found === null) return null;
  const digits = (found[2] ?? '').replace(/O/g, '0');
  return /^[0-3]/.test(digits) ? `${found[1]}${digits}` : null;
}
