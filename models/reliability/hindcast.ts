import { failedShare, plannedDays, watchedDays } from './hindcast/hindcastTypes.ts';
import type { Forecaster, HindcastOrigin, WindowForecast, WindowOutcome } from './hindcast/hindcastTypes.ts';
import { observationWeights } from './hindcast/observationWeights.ts';
import { scoreForecast } from './hindcast/scoreForecast.ts';
import type { CountStatement, ForecastScore } from './hindcast/scoreForecast.ts';
import type { ScoredUnit } from './hindcast/scoredUnit.ts';
import type { Random } from '../numeric/random.ts';

/** What each forecaster said of one unit, and what happened. */
export interface UnitHindcast {
  readonly unitNumber: string;
  readonly outcome: WindowOutcome;
  readonly failed: number;
  readonly outcomeDays: number;
  /** by name of the forecaster */
  readonly chances: Readonly<Record<string, number>>;
}

export interface OriginHindcast {
  readonly origin: string;
  readonly horizonDays: number;
  readonly scores: Readonly<Record<string, ForecastScore>>;
  readonly units: readonly UnitHindcast[];
}

export interface Hindcast {
  readonly origins: readonly OriginHindcast[];
  /** all origins together */
  readonly pooled: Readonly<Record<string, ForecastScore>>;
  /** in words: what the comparison of the first forecaster with each other one says */
  readonly comparisons: readonly string[];
}

/** Differences smaller than these are noise, whatever their sign. */
const noiseInArea = 0.005;
const noiseInBrier = 0.001;

/**
 * Runs forecasters on a fleet's own past: each sees the records frozen at an origin and says chances for the window after it; what followed scores
 * them. The forecaster named `baseRate`, if there, is the reference for the skill.
 * @param forecasters by name, the one to be judged first
 * @throws RangeError when a forecaster gives no chance for a unit, or one outside 0..1
 */
export function hindcast(
  origins: readonly HindcastOrigin[],
  forecasters: Readonly<Record<string, Forecaster>>,
  random: Random,
): Hindcast {
  const names = Object.keys(forecasters);
  const runs = origins.map((origin) => {
    const said = Object.fromEntries(
      names.map((name) => [name, checked(name, origin, forecasters[name](origin, random))]),
    );
    return { origin, said };
  });
  const outcomes = new Map(origins.map((origin) => [origin, outcomesOf(origin)]));
  const scoredFor = (name: string, { origin, said }: (typeof runs)[number]) =>
    outcomes.get(origin)!.map((of, i): ScoredUnit => ({
      ...of.unit,
      chance: asWatched(said[name].chances[i], of.watchedShare),
    }));
  const countFor = (name: string, { origin, said }: (typeof runs)[number]): CountStatement => ({
    low: said[name].countLow,
    high: said[name].countHigh,
    observed: origin.atRisk.reduce((sum, unit) => sum + failedShare(unit), 0),
  });
  const scoresOf = (chosen: typeof runs, again: Random | null) => {
    const score = (name: string, baseBrier: number | null) =>
      scoreForecast(
        chosen.flatMap((run) => scoredFor(name, run)),
        chosen.filter(({ origin }) => isWhole(origin)).map((run) => countFor(name, run)),
        baseBrier,
        again,
      );
    const base = 'baseRate' in forecasters ? score('baseRate', null).brier : null;
    return Object.fromEntries(names.map((name) => [name, score(name, base)]));
  };
  const pooled = scoresOf(runs, origins.length > 1 ? random : null);
  return {
    origins: runs.map((run) => ({
      origin: run.origin.origin,
      horizonDays: run.origin.horizonDays,
      scores: scoresOf([run], null),
      units: run.origin.atRisk.map((unit, i) => ({
        unitNumber: unit.episode.unitNumber,
        outcome: unit.outcome,
        failed: failedShare(unit),
        outcomeDays: unit.outcomeDays,
        chances: Object.fromEntries(names.map((name) => [name, run.said[name].chances[i]])),
      })),
    })),
    pooled,
    comparisons: names.slice(1).map((name) => compared(names[0], pooled[names[0]], name, pooled[name])),
  };
}

/** Whether the records reach the end of the window. */
function isWhole({ horizonDays, observedDays = horizonDays }: HindcastOrigin): boolean {
  return observedDays >= horizonDays;
}

/** A chance over the planned days brought to the part of them that the records reach, at a constant hazard. */
function asWatched(chance: number, watchedShare: number): number {
  return watchedShare >= 1 ? chance : -Math.expm1(watchedShare * Math.log1p(-Math.min(chance, 1 - 1e-12)));
}

interface UnitOutcome {
  readonly unit: Omit<ScoredUnit, 'chance'>;
  /** share of the planned days that the records reach */
  readonly watchedShare: number;
}

function outcomesOf(origin: HindcastOrigin): UnitOutcome[] {
  const watched = origin.atRisk.map((unit) => {
    const days = watchedDays(unit, origin);
    const left = unit.outcome === 'renewed' || unit.outcome === 'disposed';
    const ranThrough = !left && unit.outcome !== 'failed';
    return {
      days: ranThrough ? days : Math.min(days, unit.outcomeDays),
      failed: failedShare(unit),
      ranThrough: ranThrough || (left && unit.outcomeDays >= days),
      runShare: left && days > 0 ? Math.min(1, unit.outcomeDays / days) : 1,
      watchedShare: plannedDays(unit) > 0 ? days / plannedDays(unit) : 1,
    };
  });
  const weights = observationWeights(watched);
  return origin.atRisk.map(({ episode: { entry, segments, unitNumber } }, i) => ({
    unit: {
      unitNumber,
      failed: watched[i].failed,
      runShare: watched[i].runShare,
      sinceRenewalKm: segments.reduce(
        (sum, segment) => sum + segment.distanceKm,
        entry === 'new' ? 0 : entry.distanceKm,
      ),
      failedWeight: weights[i].asFailed,
      survivedWeight: weights[i].asSurvived,
    },
    watchedShare: watched[i].watchedShare,
  }));
}

function checked(name: string, { atRisk }: HindcastOrigin, forecast: WindowForecast): WindowForecast {
  if (forecast.chances.length !== atRisk.length)
    throw new RangeError(`${name}: chances must be ${atRisk.length}, got ${forecast.chances.length}`);
  for (const chance of forecast.chances)
    if (!(chance >= 0 && chance <= 1))
      throw new RangeError(`${name}: chance must lie from 0 to 1, got ${chance}`);
  return forecast;
}

function compared(name: string, score: ForecastScore, otherName: string, other: ForecastScore): string {
  if (score.auc === null || other.auc === null || score.brier === null || other.brier === null)
    return `${name} and ${otherName}: too few failures to compare them.`;
  const area = score.auc - other.auc;
  const brier = other.brier - score.brier;
  const word = (gain: number, noise: number) =>
    Math.abs(gain) < noise ? 'no different from' : gain > 0 ? 'better than' : 'worse than';
  return (
    `${name} orders units ${word(area, noiseInArea)} ${otherName} (area ${score.auc.toFixed(3)} and ${other.auc.toFixed(3)}), ` +
    `and its chances are ${word(brier, noiseInBrier)} those (Brier ${score.brier.toFixed(4)} and ${other.brier.toFixed(4)}).`
  );
}
