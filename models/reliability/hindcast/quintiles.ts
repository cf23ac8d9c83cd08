import { observedOverExpected } from '../scoring/observedOverExpected.ts';
import { chanceOnRun } from './scoredUnit.ts';
import type { ScoredUnit } from './scoredUnit.ts';

/** A fifth of the units by predicted chance, lowest first. */
export interface Quintile {
  readonly units: number;
  /** lowest and highest chance in it */
  readonly chanceLow: number;
  readonly chanceHigh: number;
  /** failures said, over the days that its units were watched */
  readonly expected: number;
  readonly observed: number;
  /** 80 % exact Poisson limits of the rate behind the failures seen, as failures among these units */
  readonly observedLow: number;
  readonly observedHigh: number;
}

/** Fifths by chance with what was said and what was seen in each, limits included. */
export function quintilesOf(scored: readonly ScoredUnit[]): Quintile[] {
  const sorted = [...scored].sort((a, b) => a.chance - b.chance);
  return Array.from({ length: 5 }, (_, k) =>
    sorted.slice((k * sorted.length) / 5, ((k + 1) * sorted.length) / 5),
  )
    .filter((part) => part.length > 0)
    .map((part) => {
      const observed = part.reduce((sum, { failed }) => sum + failed, 0);
      const limits = observedOverExpected(observed, 1, 0.8);
      return {
        units: part.length,
        chanceLow: part[0].chance,
        chanceHigh: part[part.length - 1].chance,
        expected: part.reduce((sum, unit) => sum + chanceOnRun(unit), 0),
        observed,
        observedLow: limits.low,
        observedHigh: limits.high,
      };
    });
}
