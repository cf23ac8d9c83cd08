import { areaUnderCurve } from '../scoring/areaUnderCurve.ts';
import { decided } from './scoredUnit.ts';
import type { ScoredUnit } from './scoredUnit.ts';

const bandCount = 3;

/**
 * Area under the curve with failed and running units compared only inside thirds of distance since renewal, weighted by pairs: a high area by itself
 * mostly says that old sets fail more.
 * @returns null when no third holds both outcomes twice
 */
export function areaWithinBands(scored: readonly ScoredUnit[]): number | null {
  const known = [...decided(scored)].sort((a, b) => a.sinceRenewalKm - b.sinceRenewalKm);
  let sum = 0;
  let pairs = 0;
  for (let band = 0; band < bandCount; band++) {
    const part = known.slice((band * known.length) / bandCount, ((band + 1) * known.length) / bandCount);
    const outcome = part.map(({ failed }) => (failed >= 0.5 ? 1 : 0));
    const area = areaUnderCurve(
      part.map(({ chance }) => chance),
      outcome,
    );
    if (area === null) continue;
    const failures = outcome.reduce<number>((a, b) => a + b, 0);
    const weight = failures * (part.length - failures);
    sum += weight * area.auc;
    pairs += weight;
  }
  return pairs > 0 ? sum / pairs : null;
}
