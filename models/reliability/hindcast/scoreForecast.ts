import { FitRefused } from '../fit/fitRefused.ts';
import type { Random } from '../../numeric/random.ts';
import { areaUnderCurve } from '../scoring/areaUnderCurve.ts';
import { calibrationSlope } from '../scoring/calibrationSlope.ts';
import { observedOverExpected } from '../scoring/observedOverExpected.ts';
import { areaWithinBands } from './areaWithinBands.ts';
import { bootstrapAreaSe } from './bootstrapArea.ts';
import { quintilesOf } from './quintiles.ts';
import type { Quintile } from './quintiles.ts';
import { chanceOnRun } from './scoredUnit.ts';
import type { ScoredUnit } from './scoredUnit.ts';
import { weightedArea } from './weightedArea.ts';

/** Score of one forecaster on one window or on several together; null where there are too few failures to say. */
export interface ForecastScore {
  readonly units: number;
  readonly events: number;
  /** over the days planned at the origin, as far as the records reach */
  readonly expected: number;
  /** over the days actually run before a renewal or disposal */
  readonly expectedOnRun: number;
  readonly observedOverExpected: number | null;
  readonly observedOverExpectedLow: number | null;
  readonly observedOverExpectedHigh: number | null;
  /** weighted by the inverse chance of being under observation, as the log score, area and slope are */
  readonly brier: number | null;
  /** share of the base rate's Brier score that is saved; below 0 it does worse */
  readonly brierSkill: number | null;
  readonly logScore: number | null;
  readonly auc: number | null;
  readonly aucSe: number | null;
  /** units of like distance since renewal compared among themselves: what is left of the area beyond age */
  readonly aucWithinAge: number | null;
  readonly calibrationSlope: number | null;
  readonly calibrationSlopeSe: number | null;
  readonly quintiles: readonly Quintile[] | null;
  /** 80 % range of the number of failures, and whether it held; over several windows the share that held */
  readonly countLow: number | null;
  readonly countHigh: number | null;
  readonly countCoverage: number | null;
  /** whether the order of units may be called better than chance */
  readonly ranks: boolean;
  /** in words, what the figures do and do not say */
  readonly notes: readonly string[];
}

/** Below this many failures there is no area and no ranking; above the second number the slope is worth printing. */
export const fewestForArea = 5;
export const fewestForSlope = 20;

/** What a forecaster said of the count in each window. */
export interface CountStatement {
  readonly low: number;
  readonly high: number;
  readonly observed: number;
}

/** Failures are whole: what the records leave open is taken to the nearest number. */
function holds({ low, high, observed }: CountStatement): boolean {
  const failures = Math.round(observed);
  return failures >= low && failures <= high;
}

/**
 * Scores chances against what followed, honest about small numbers: with fewer than 5 failures counts alone; with 5 to 20 the area with its
 * error and no ranking when its 95 % limits hold one half; above 20 the calibration slope.
 * @param baseBrier Brier score of the base rate on the same units, for the skill
 * @param random for the bootstrap by unit where units stand in several windows; null where each stands once
 */
export function scoreForecast(
  scored: readonly ScoredUnit[],
  counts: readonly CountStatement[],
  baseBrier: number | null,
  random: Random | null,
): ForecastScore {
  const events = scored.reduce((sum, unit) => sum + unit.failed, 0);
  const expected = scored.reduce((sum, unit) => sum + unit.chance, 0);
  const ratio = expected > 0 ? observedOverExpected(events, expected) : null;
  const brier = meanOf(
    scored,
    (chance) => (1 - chance) ** 2,
    (chance) => chance ** 2,
  );
  const logScore = meanOf(
    scored,
    (chance) => -Math.log(Math.max(chance, 1e-12)),
    (chance) => -Math.log(Math.max(1 - chance, 1e-12)),
  );
  const area = events >= fewestForArea ? areaOf(scored, random) : null;
  const ranks = area !== null && area.auc - 1.96 * area.se > 0.5;
  const slope = events > fewestForSlope ? slopeOf(scored) : null;
  return {
    units: scored.length,
    events,
    expected,
    expectedOnRun: scored.reduce((sum, unit) => sum + chanceOnRun(unit), 0),
    observedOverExpected: ratio?.ratio ?? null,
    observedOverExpectedLow: ratio?.low ?? null,
    observedOverExpectedHigh: ratio?.high ?? null,
    brier,
    brierSkill: brier !== null && baseBrier !== null && baseBrier > 0 ? 1 - brier / baseBrier : null,
    logScore,
    auc: area?.auc ?? null,
    aucSe: area?.se ?? null,
    aucWithinAge: events >= fewestForArea ? areaWithinBands(scored) : null,
    calibrationSlope: slope?.slope ?? null,
    calibrationSlopeSe: slope?.slopeSe ?? null,
    quintiles: events >= fewestForArea ? quintilesOf(scored) : null,
    countLow: counts.length === 1 ? counts[0].low : null,
    countHigh: counts.length === 1 ? counts[0].high : null,
    countCoverage: counts.length === 0 ? null : counts.filter(holds).length / counts.length,
    ranks,
    notes: notesOf(events, area !== null, ranks),
  };
}

function areaOf(scored: readonly ScoredUnit[], random: Random | null): { auc: number; se: number } | null {
  const known = scored.filter(({ failedWeight, survivedWeight }) => failedWeight + survivedWeight > 0);
  const area = weightedArea(known);
  // the error of the plain area; null with fewer than two of an outcome
  const plain = areaUnderCurve(
    known.map(({ chance }) => chance),
    known.map(({ failed }) => (failed >= 0.5 ? 1 : 0)),
  );
  if (area === null || plain === null) return null;
  return { auc: area.auc, se: (random === null ? null : bootstrapAreaSe(known, random)) ?? plain.se };
}

function slopeOf(scored: readonly ScoredUnit[]): { slope: number; slopeSe: number } | null {
  const known = scored.flatMap(({ chance, failedWeight, survivedWeight }) => [
    { probability: chance, outcome: 1 as const, weight: failedWeight },
    { probability: chance, outcome: 0 as const, weight: survivedWeight },
  ]);
  try {
    return calibrationSlope(known.filter(({ weight }) => weight > 0));
  } catch (error) {
    if (error instanceof FitRefused) return null;
    throw error;
  }
}

/** Mean over units whose end is known, each by its weight; null when there are none. */
function meanOf(
  scored: readonly ScoredUnit[],
  ofFailed: (chance: number) => number,
  ofSurvived: (chance: number) => number,
): number | null {
  let sum = 0;
  let weights = 0;
  for (const { chance, failedWeight, survivedWeight } of scored) {
    if (failedWeight > 0) sum += failedWeight * ofFailed(chance);
    if (survivedWeight > 0) sum += survivedWeight * ofSurvived(chance);
    weights += failedWeight + survivedWeight;
  }
  return weights > 0 ? sum / weights : null;
}

function notesOf(events: number, hasArea: boolean, ranks: boolean): string[] {
  if (events < fewestForArea)
    return [
      `Fewer than ${fewestForArea} failures in the window: counts are compared, the order of units is not judged.`,
    ];
  const notes: string[] = [];
  if (!hasArea) notes.push('The order of units cannot be judged: too few of one outcome.');
  else if (!ranks) notes.push('The order of units may be chance: the limits of the area hold one half.');
  if (events <= fewestForSlope)
    notes.push(`${Math.round(events)} failures: too few to judge how steep the chances are.`);
  return notes;
}
