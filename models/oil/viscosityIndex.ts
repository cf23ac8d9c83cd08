import { z } from 'zod';

/** The quadratics of ASTM D2270 appendix X2: L = aY² + bY + c, H = dY² + eY + f, by range of Y. */
export const viscosityIndexFile = z.object({
  title: z.string(),
  source: z.string(),
  bands: z
    .array(
      z.object({
        fromKv100: z.number(),
        toKv100: z.number().nullable().describe('null: no upper end'),
        a: z.number(),
        b: z.number(),
        c: z.number(),
        d: z.number(),
        e: z.number(),
        f: z.number(),
      }),
    )
    .min(1),
});
export type ViscosityIndexBands = z.infer<typeof viscosityIndexFile>['bands'];

/** L and H: what oils of index 0 and 100 with the same viscosity at 100 °C have at 40 °C. */
export interface IndexLimits {
  readonly low: number;
  readonly high: number;
}

/**
 * L and H of ASTM D2270. Above 70 mm²/s the formulas of the method hold: L = 0.8353 Y² + 14.67 Y − 216,
 * H = 0.1684 Y² + 11.85 Y − 97; up to 70 the quadratics of appendix X2, within 0.1 % of table 1.
 * @param kv100 Y, mm²/s, 2 or above
 * @param bands from data/catalog/viscosity-index.json
 * @returns low = L, high = H, mm²/s; 8.86 → L 119.96, H 69.48
 * Throws below 2 mm²/s, where the method does not hold.
 */
export function indexLimits(kv100: number, bands: ViscosityIndexBands): IndexLimits {
  if (!(kv100 >= 2)) throw new Error(`kv100 must be 2 mm²/s or above, got ${kv100}`);
  if (kv100 > 70)
    return {
      low: (0.8353 * kv100 + 14.67) * kv100 - 216,
      high: (0.1684 * kv100 + 11.85) * kv100 - 97,
    };
  const band = bands.find((entry) => entry.toKv100 === null || kv100 <= entry.toKv100);
  if (band === undefined) throw new Error(`bands must cover kv100, got ${kv100}`);
  return {
    low: (band.a * kv100 + band.b) * kv100 + band.c,
    high: (band.d * kv100 + band.e) * kv100 + band.f,
  };
}

/**
 * Viscosity index by ASTM D2270, not rounded.
 * Procedure A (U ≥ H): VI = 100 (L − U)/(L − H). Procedure B (U < H): N = (log10 H − log10 U)/log10 Y,
 * VI = (10^N − 1)/0.00715 + 100.
 * @param kv40 U, mm²/s, above kv100
 * @param kv100 Y, mm²/s, 2 or above
 * @returns index; 73.30 and 8.86 → 92.43; 22.83 and 5.05 → 156.46
 * Throws when kv100 is below 2 or kv40 is not above kv100.
 */
export function viscosityIndex(kv40: number, kv100: number, bands: ViscosityIndexBands): number {
  if (!(kv40 > kv100)) throw new Error(`kv40 must be above kv100 ${kv100}, got ${kv40}`);
  const { low, high } = indexLimits(kv100, bands);
  if (kv40 >= high) return (100 * (low - kv40)) / (low - high);
  const power = (Math.log10(high) - Math.log10(kv40)) / Math.log10(kv100);
  return (10 ** power - 1) / 0.00715 + 100;
}

/** The index as reported: a whole number, halves to the even one (rounding by ASTM D2270: value from memory). */
export function reportedViscosityIndex(index: number): number {
  const down = Math.floor(index);
  const rest = index - down;
  if (rest !== 0.5) return Math.round(index);
  return down % 2 === 0 ? down : down + 1;
}
