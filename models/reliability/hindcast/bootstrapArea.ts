import type { Random } from '../../numeric/random.ts';
import type { ScoredUnit } from './scoredUnit.ts';
import { weightedArea } from './weightedArea.ts';

const resamplings = 200;

/**
 * Standard error of the area with whole units drawn anew, since one unit may stand in several windows (Efron & Tibshirani, An Introduction to the
 * Bootstrap, chapter 8).
 * @returns null when hardly any resample has both outcomes
 */
export function bootstrapAreaSe(scored: readonly ScoredUnit[], random: Random): number | null {
  const byUnit = new Map<string, ScoredUnit[]>();
  for (const one of scored) {
    const list = byUnit.get(one.unitNumber) ?? [];
    list.push(one);
    byUnit.set(one.unitNumber, list);
  }
  const units = [...byUnit.values()];
  const areas: number[] = [];
  for (let k = 0; k < resamplings; k++) {
    const drawn = units.flatMap(() => units[Math.floor(random() * units.length)]);
    const area = weightedArea(drawn);
    if (area !== null) areas.push(area.auc);
  }
  if (areas.length < resamplings / 2) return null;
  const mean = areas.reduce((a, b) => a + b, 0) / areas.length;
  return Math.sqrt(areas.reduce((sum, area) => sum + (area - mean) ** 2, 0) / (areas.length - 1));
}
