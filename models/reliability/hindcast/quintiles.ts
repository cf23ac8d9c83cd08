import type { ScoredUnit } from './scoredUnit.ts';

/** A fifth of the units by predicted chance, lowest first. */
export interface Quintile {
  readonly units: number;
  readonly expected: number;
  readonly observed: number;
}

export function quintilesOf(scored: readonly ScoredUnit[]): Quintile[] {
  const sorted = [...scored].sort((a, b) => a.chance - b.chance);
  return Array.from({ length: 5 }, (_, k) => {
    const part = sorted.slice((k * sorted.length) / 5, ((k + 1) * sorted.length) / 5);
    return {
      units: part.length,
      expected: part.reduce((sum, { chance }) => sum + chance, 0),
      observed: part.reduce((sum, { failed }) => sum + failed, 0),
    };
  });
}
