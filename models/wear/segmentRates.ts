import { agingRatesInto, emptyAgingRates } from '../oil/agingRates.ts';
import type { AgingRates } from '../oil/agingRates.ts';
import { conditionCoefficients } from '../oil/conditionCoefficients.ts';
import { unitRates } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { Segment } from './segments.ts';

interface Kept {
  readonly coefficients: Coefficients;
  readonly rates: readonly AgingRates[];
}

// a unit is run many times over the same segments, with other multipliers each time
const kept = new WeakMap<readonly Segment[], Kept>();

/**
 * The aging of each segment with all multipliers 1, in the order of the segments; the answer for one list is kept.
 * @param segments must not be changed afterwards
 * Throws as `agingRatesInto`.
 */
export function segmentRates(
  segments: readonly Segment[],
  coefficients: Coefficients,
): readonly AgingRates[] {
  const known = kept.get(segments);
  if (known !== undefined && known.coefficients === coefficients) return known.rates;
  const c = conditionCoefficients(coefficients);
  const rates = segments.map(({ exposure, fillAndEngine: { fill, engine } }) => {
    const into = emptyAgingRates();
    agingRatesInto(exposure, engine, fill, unitRates, c, into);
    return into;
  });
  kept.set(segments, { coefficients, rates });
  return rates;
}
