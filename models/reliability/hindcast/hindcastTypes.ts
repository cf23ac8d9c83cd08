import type { Random } from '../../numeric/random.ts';
import type { Episode, Segment } from '../fleet/episode.ts';

/** What became of a unit within the window after an origin. */
export type WindowOutcome = 'failed' | 'renewed' | 'disposed' | 'ran';

/** A unit in service at an origin, as it was known then, and what followed. */
export interface HindcastUnit {
  /** the running set, from records known at the origin */
  readonly episode: Episode;
  /** the use ahead as foreseen at the origin */
  readonly future: readonly Segment[];
  readonly useLogSd: number;
  readonly outcome: WindowOutcome;
  /** chance that the outcome was a failure where the records leave it open; otherwise 1 for `failed` and 0 for the rest */
  readonly failureChance?: number;
  /** days from the origin to the outcome; the observed part of the window where it ran through */
  readonly outcomeDays: number;
}

/** Records frozen at a day, the units then in service, and the window in which they are watched. */
export interface HindcastOrigin {
  /** ISO date */
  readonly origin: string;
  readonly horizonDays: number;
  /** days of the window that the records reach; the whole window when left out. Forecasts are scored over these days */
  readonly observedDays?: number;
  /** every set known at the origin, the running ones included */
  readonly episodes: readonly Episode[];
  readonly atRisk: readonly HindcastUnit[];
}

/** Chances of failing in the window, one per unit at risk, and the 80 % range of the number of failures. */
export interface WindowForecast {
  readonly chances: readonly number[];
  readonly countLow: number;
  readonly countHigh: number;
}

/** The one type that the tool and its rivals share: from what was known at the origin to chances. It must not look at outcomes. */
export type Forecaster = (origin: HindcastOrigin, random: Random) => WindowForecast;

/** Chance that a unit's outcome was a failure. */
export function failedShare({ outcome, failureChance }: HindcastUnit): number {
  return failureChance ?? (outcome === 'failed' ? 1 : 0);
}

/** Days ahead that were planned at the origin. */
export function plannedDays({ future }: HindcastUnit): number {
  return future.reduce((sum, segment) => sum + segment.days, 0);
}

/** Days ahead of a unit that were planned at the origin and that the records reach. */
export function watchedDays(unit: HindcastUnit, { observedDays = Infinity }: HindcastOrigin): number {
  return Math.min(plannedDays(unit), observedDays);
}
