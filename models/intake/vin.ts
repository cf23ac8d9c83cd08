const values: Readonly<Record<string, number>> = {
  ...{ A: 1, B: 2, C: 3, D: 4, E: 5, F: 6, G: 7, H: 8, J: 1, K: 2, L: 3, M: 4, N: 5, P: 7, R: 9 },
  ...{ S: 2, T: 3, U: 4, V: 5, W: 6, X: 7, Y: 8, Z: 9 },
};
const weights = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

/** True for the 17 characters of ISO 3779, which leaves out I, O and Q; at least five of them digits. */
export function looksLikeVin(cell: string): boolean {
  return /^[A-HJ-NPR-Z0-9]{17}$/i.test(cell) && (cell.match(/\d/g)?.length ?? 0) >= 5;
}

/**
 * The check character of a VIN: its characters' values times their places' weights, modulo 11, 10 written X.
 * Source: 49 CFR 565.15(c), tables III to V.
 * @param vin 17 characters
 * @example vinCheckCharacter('1M8GDM9AXKP042788') → 'X'
 */
export function vinCheckCharacter(vin: string): string {
  let sum = 0;
  for (let at = 0; at < 17; at += 1) {
    const letter = vin[at]?.toUpperCase() ?? '';
    sum += (/\d/.test(letter) ? Number(letter) : (values[letter] ?? 0)) * (weights[at] ?? 0);
  }
  return sum % 11 === 10 ? 'X' : String(sum % 11);
}

/** True when the ninth character is the check character, as it must be where 49 CFR 565 applies. */
export function vinCheckHolds(vin: string): boolean {
  return looksLikeVin(vin) && vin[8]?.toUpperCase() === vinCheckCharacter(vin);
}
