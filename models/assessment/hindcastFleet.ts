import { hindcast } from '../reliability/hindcast.ts';
import type { Forecaster, HindcastOrigin, HindcastUnit } from '../reliability/hindcast/hindcastTypes.ts';
import { rivals } from '../reliability/hindcast/rivals.ts';
import type { ForecastScore } from '../reliability/hindcast/scoreForecast.ts';
import { seededRandom } from '../numeric/random.ts';
import { dayFromIso, isoFromDay } from '../schema/day.ts';
import type { HindcastPrediction, HindcastResult, HindcastScore } from '../schema/hindcastEndpoints.ts';
import type { FleetHistory } from '../schema/history.ts';
import type { FleetView } from './assessFleet.ts';
import type { Models } from './models.ts';
import { laterHistories, outcomeOf, type UnitOutcome } from './hindcastOutcomes.ts';
import { round } from './round.ts';

/** What was said at an origin, from what was known then, with what happened to each unit in the order of the assessment. */
export interface FrozenOrigin {
  readonly view: FleetView;
  readonly outcomes: readonly UnitOutcome[];
  readonly input: HindcastOrigin;
}

/**
 * Puts what an assessment said at an origin beside what followed within its horizon.
 * @param later the fleet as known today
 * @param lastRecordOn ISO date of the newest record: windows are watched up to there
 */
export function freezeOrigin(
  view: FleetView,
  later: FleetHistory,
  lastRecordOn: string,
  { faultCodes, coefficients }: Models,
): FrozenOrigin {
  const { asOf: origin, horizonDays } = view.assessment;
  const originDay = dayFromIso(origin);
  const endDay = Math.min(originDay + horizonDays, dayFromIso(lastRecordOn));
  const { historyOf } = laterHistories(later, origin);
  const earlier = [...view.views.values()];
  const outcomes = earlier.map(({ history }) =>
    outcomeOf(historyOf(history.unit) ?? history, originDay, endDay, faultCodes, coefficients),
  );
  const atRisk = view.forecast.requests.map((request, i): HindcastUnit => ({
    ...request,
    outcome: outcomes[i].outcome,
    failureChance: outcomes[i].failureChance,
    outcomeDays: outcomes[i].day - originDay,
  }));
  const observedDays = endDay - originDay;
  return { view, outcomes, input: { origin, horizonDays, observedDays, episodes: view.episodes, atRisk } };
}

const seed = 20_240_930;

/** Scores what was said at each origin, and what simple rivals would have said of the same units from the same records. */
export function hindcastFleet(
  frozen: readonly FrozenOrigin[],
  today: { readonly asOf: string; readonly horizonDays: number; readonly modelVersion: string },
  lastRecordOn: string,
): HindcastResult {
  const saidAt = new Map(frozen.map(({ input, view }) => [input, view]));
  const sumpwise: Forecaster = (origin) => {
    const { assessment } = saidAt.get(origin)!;
    return {
      chances: assessment.units.map((unit) => unit.failure?.probability ?? 0),
      countLow: assessment.expectedFailures?.low ?? 0,
      countHigh: assessment.expectedFailures?.high ?? 0,
    };
  };
  const result = hindcast(
    frozen.map(({ input }) => input),
    { sumpwise, ...rivals },
    seededRandom(seed),
  );
  return {
    ...today,
    origins: result.origins.map((scored, k) => {
      const { view, outcomes, input } = frozen[k];
      const { observedDays = scored.horizonDays } = input;
      const predictions = scored.units.map(({ unitNumber, chances }, i): HindcastPrediction => {
        const unit = view.assessment.units[i];
        const { outcome, failureChance, day, record } = outcomes[i];
        const probability = unit.failure?.probability ?? 0;
        return {
          unitNumber,
          engineFamily: unit.engineFamily,
          probability,
          low: unit.failure?.low ?? 0,
          high: unit.failure?.high ?? 1,
          ifNotRenewed: round(view.forecast.ifNotRenewed[i], 3),
          baseRate: round(chances.baseRate, 4),
          odometerOnly: round(chances.odometerOnly, 4),
          pastBookInterval: round(chances.pastBookInterval, 4),
          outcome,
          failed: round(failureChance, 3),
          outcomeOn: isoFromDay(day),
          record: record === null ? null : { ...record },
        };
      });
      return {
        origin: scored.origin,
        horizonDays: scored.horizonDays,
        observedThrough: isoFromDay(dayFromIso(scored.origin) + observedDays),
        observedDays,
        wholeWindow: observedDays >= scored.horizonDays,
        modelVersion: view.assessment.modelVersion,
        expectedIfNotRenewed: view.forecast.ifNotRenewed.reduce((sum, chance) => sum + chance, 0),
        ...fourScores(scored.scores),
        predictions,
      };
    }),
    overall: fourScores(result.pooled),
    comparisons: [...result.comparisons],
    messages: messagesOf(frozen, result.pooled.sumpwise, lastRecordOn),
  };
}

/** The scores of the tool and its rivals, in the order of the document. */
function fourScores(scores: Readonly<Record<string, ForecastScore>>): HindcastResult['overall'] {
  const plain = (score: ForecastScore): HindcastScore => ({
    ...score,
    quintiles: score.quintiles === null ? null : score.quintiles.map((part) => ({ ...part })),
    notes: [...score.notes],
  });
  return {
    sumpwise: plain(scores.sumpwise),
    baseRate: plain(scores.baseRate),
    odometerOnly: plain(scores.odometerOnly),
    pastBookInterval: plain(scores.pastBookInterval),
  };
}

/** In words: what a reader must know of these figures. */
function messagesOf(frozen: readonly FrozenOrigin[], pooled: ForecastScore, lastRecordOn: string): string[] {
  const messages = [
    'Units renewed as planned or sold within the window are censored on that day: Brier, log score, area and slope weigh the others by the inverse chance of still being under observation; failures said are counted over the days planned, and beside it up to the day a unit left.',
  ];
  const twice = seenTwice(frozen);
  if (twice > 0)
    messages.push(
      `The windows overlap: ${twice} of the failures stand in more than one of them, so that the limits over all origins look narrower than they are.`,
    );
  for (const { input, outcomes } of frozen) {
    const { origin, horizonDays, observedDays = horizonDays } = input;
    if (observedDays < horizonDays)
      messages.push(
        `The window from ${origin} reaches past the newest record (${lastRecordOn}): ${observedDays} of ${horizonDays} days were watched; chances are brought to that part at a constant hazard, and the range of its number of failures is not judged.`,
      );
    if (outcomes.length === 0) messages.push(`No unit was in service on ${origin}: nothing is scored there.`);
  }
  if (pooled.units > 0 && pooled.events < 0.5)
    messages.push(
      'No failure followed in any window: the number of failures said can be compared with none, nothing else can be judged.',
    );
  return messages;
}

/** Failures that stand in the windows of more than one origin. */
function seenTwice(frozen: readonly FrozenOrigin[]): number {
  const seen = new Map<string, number>();
  for (const { input, outcomes } of frozen)
    input.atRisk.forEach(({ episode }, i) => {
      const { failureChance, day } = outcomes[i];
      const key = `${episode.unitNumber} ${day}`;
      if (failureChance >= 0.5) seen.set(key, (seen.get(key) ?? 0) + 1);
    });
  return [...seen.values()].filter((count) => count > 1).length;
}
