import type { ScoredUnit } from './scoredUnit.ts';
import { weightedArea } from './weightedArea.ts';

const bandCount = 3;

/**
 * Area under the curve with failed and running units compared only inside thirds of distance since renewal, weighted by pairs: a high area by itself
 * mostly says that old sets fail more.
 * @returns null when no third holds both outcomes
 */
export function areaWithinBands(scored: readonly ScoredUnit[]): number | null {
  const known = scored
    .filter(({ failedWeight, survivedWeight }) => failedWeight + survivedWeight > 0)
    .sort((a, b) => a.sinceRenewalKm - b.sinceRenewalKm);
  let sum = 0;
  let pairs = 0;
  for (let band = 0; band < bandCount; band++) {
    const area = weightedArea(
      known.slice((band * known.length) / bandCount, ((band + 1) * known.length) / bandCount),
    );
    if (area === null) continue;
    sum += area.pairs * area.auc;
    pairs += area.pairs;
  }
  return pairs > 0 ? sum / pairs : null;
}
