import type { ScoredUnit } from './scoredUnit.ts';

/**
 * Chance that a failed unit had the higher chance than one that ran through, ties half, each counted by its weight
 * (Uno, Cai, Tian & Wei, Journal of the American Statistical Association 102, 2007).
 * @returns the area 0..1 and the weight of its pairs, or null without a failure or without a survivor
 */
export function weightedArea(scored: readonly ScoredUnit[]): { auc: number; pairs: number } | null {
  const sorted = [...scored].sort((a, b) => a.chance - b.chance);
  let below = 0;
  let won = 0;
  let failures = 0;
  for (let k = 0; k < sorted.length;) {
    const { chance } = sorted[k];
    let failedHere = 0;
    let survivedHere = 0;
    for (; k < sorted.length && sorted[k].chance === chance; k += 1) {
      failedHere += sorted[k].failedWeight;
      survivedHere += sorted[k].survivedWeight;
    }
    won += failedHere * (below + survivedHere / 2);
    below += survivedHere;
    failures += failedHere;
  }
  const pairs = failures * below;
  return pairs > 0 ? { auc: won / pairs, pairs } : null;
}
