import { callFor, type CallResult } from '../decisions/calls.ts';
import type { FillAndEngine, FillOf } from '../wear/segments.ts';
import type { UnitAssessment } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { isoFromDay } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { Settings } from '../schema/settings.ts';
import type { UnitTimeline } from '../oil/charge.ts';
import type { BookInterval } from '../oil/bookInterval.ts';
import type { CondemningLimits } from '../oil/condemningLimits.ts';
import type { OilCatalog } from '../oil/oilFill.ts';
import type { UnitStates } from '../wear/states.ts';
import { assessOil, bookOf } from './assessOil.ts';
import type { FleetAlarms } from './alarmPopulations.ts';
import { standingApproval } from './standingApproval.ts';
import type { FailureEstimate } from './failureEstimate.ts';
import { type FillReader } from './fillsOfUnit.ts';
import { judgeSamples, type JudgedSample } from './judgeSample.ts';
import type { MoneySetting } from './moneyUnitOf.ts';
import { oilCautions } from './oilCautions.ts';
import { nextStep } from './nextStep.ts';
import { runningCharge } from './oilQuestion.ts';
import { renewalPays } from './renewalPays.ts';
import { rightOilOf } from './rightOilOf.ts';
import { dueNow, lastingCautions, newestOfRunning, sampleEffect } from './sampleEffect.ts';
import type { UnitView } from './unitView.ts';
import { round } from './round.ts';

export interface UnitInputs {
  readonly history: UnitHistory;
  readonly timeline: UnitTimeline;
  readonly states: UnitStates;
  readonly fillOf: FillOf;
  readonly oilCatalog: OilCatalog;
  readonly readFill: FillReader;
  readonly limits: CondemningLimits;
  /** what the fleet's own samples teach */
  readonly alarms: FleetAlarms;
  readonly failure: FailureEstimate | null;
  /** why the chance is not known */
  readonly failureReason: string | null;
  /** how renewals are judged */
  readonly money: MoneySetting;
  readonly coefficients: Coefficients;
  readonly settings: Settings;
}

/** The oil and engine now: of the running charge, else of the last one there is. */
export function fillNow(timeline: UnitTimeline, fillOf: FillOf): FillAndEngine | null {
  const charge = runningCharge(timeline) ?? timeline.charges[timeline.charges.length - 1];
  return charge === undefined ? null : fillOf(charge);
}

/** Works one unit through to its own call, before the fleet's room is looked at. */
export function viewUnit(inputs: UnitInputs): UnitView {
  const { history, timeline, states, fillOf, failure, coefficients, settings } = inputs;
  const filled = fillNow(timeline, fillOf);
  const samples = judgeSamples(inputs);
  const standing = standingApproval(
    history.approvals ?? [],
    { metersDisagree: timeline.metersDisagree, stops: states.stops, samples },
    timeline.asOfDay,
    coefficients,
  );
  const ownBook = bookOf(history.engine);
  const { approval } = standing;
  const { adopted } = history;
  const book: BookInterval = {
    ...ownBook,
    ...(approval === null
      ? {}
      : { approved: { intervalKm: approval.intervalKm, by: approval.approvedBy, on: approval.approvedOn } }),
    ...(adopted === undefined
      ? {}
      : { adopted: { intervalKm: adopted.intervalKm, by: adopted.adoptedBy, on: adopted.adoptedOn } }),
  };
  const byInterval = filled === null ? null : assessOil(timeline, states, book, filled, coefficients);
  const newest = runningCharge(timeline) === null ? null : newestOfRunning(samples);
  const effect = newest === null || filled === null ? null : sampleEffect(newest, filled.fill.kv100);
  const oil =
    byInterval !== null && effect?.condemns === true
      ? dueNow(byInterval, timeline.asOfDay, timeline.odometerKm, timeline.engineHours)
      : byInterval;
  const rightOil = rightOilOf(inputs, runningCharge(timeline));
  const wrongOil = (rightOil?.verdicts ?? [])
    .filter(({ verdict }) => verdict === 'wrong')
    .map(({ words }) => words);
  const pays = renewalPays(
    { history, timeline, states, failure },
    inputs.money,
    settings.currency,
    coefficients,
  );
  const call = callFor(
    {
      directEvidence: states.stops,
      clearedStop: false,
      dueDayMedian: oil?.due?.dueDay ?? null,
      chancePastNow: oil?.due?.chancePastNow ?? 0,
      failureProbability: failure?.probability ?? null,
      looksOrRenewalPaysNow: pays.now,
      renewalPaysWithin12Months: pays.within12Months,
      ...(pays.words === null ? {} : { payWords: pays.words }),
      cautionLimitsPassed: [
        ...(effect?.cautions ?? lastingCautions(recentSamples(samples, timeline.charges.length))),
        ...wrongOil,
        ...states.cautions,
        ...oilCautions(oil, inputs),
        ...(standing.blocked === null ? [] : [standing.blocked]),
      ],
      recordQuality: timeline.recordQuality,
      asOfDay: timeline.asOfDay,
    },
    settings,
  );
  return {
    history,
    timeline,
    states,
    fillOf,
    oil,
    ownBook,
    book,
    standing,
    samples,
    rightOil,
    failure,
    failureReason: inputs.failureReason,
    call,
  };
}

/** Samples of the charge now running and of the one before it; older ones say nothing of today. */
function recentSamples(samples: readonly JudgedSample[], charges: number): readonly JudgedSample[] {
  return samples.filter(({ sampled }) => sampled !== null && sampled.index >= charges - 2);
}

/** The line of the list for one unit. */
export function unitAssessmentOf(view: UnitView, call: CallResult): UnitAssessment {
  const { history, timeline, states, oil, failure } = view;
  const { duty } = timeline;
  const { sludge, chainPercent, phaserShare } = states.now;
  const notKnown: Record<string, string> = { ...states.notKnown, ...oil?.notKnown };
  if (oil === null) notKnown.oil = 'there is no record to place an oil charge by';
  if (failure === null) notKnown.failure = view.failureReason ?? 'there is too little to go by';
  const inferred = [...new Set([...duty.inferred, ...(runningCharge(timeline)?.inferred ?? [])])];
  return {
    unitNumber: history.unit.unitNumber,
    call: call.call,
    reasons: [...call.reasons],
    recordQuality: round(timeline.recordQuality, 2),
    site: history.unit.site,
    dutyName: history.unit.duty,
    engineFamily: history.unit.engineFamily,
    odometerKm: timeline.odometerKm === null ? null : Math.round(timeline.odometerKm),
    lastRecordOn: timeline.lastRecordDay === null ? null : isoFromDay(timeline.lastRecordDay),
    duty: {
      kmPerDay: round(duty.kmPerDay, 3),
      idleShare: round(duty.idleShare, 3),
      hoursPerDay: round(duty.engineHoursPerDay, 3),
      severe: duty.severe,
      severeReasons: [...duty.severeReasons],
      inferred,
    },
    oil: oil?.assessment ?? null,
    sludge:
      sludge === null
        ? null
        : { index: round(sludge.value, 3), low: round(sludge.low, 3), high: round(sludge.high, 3) },
    chain:
      chainPercent === null
        ? null
        : {
            elongationPercent: round(chainPercent.value, 3),
            low: round(chainPercent.low, 3),
            high: round(chainPercent.high, 3),
          },
    phaser:
      phaserShare === null
        ? null
        : {
            wearShare: round(phaserShare.value, 3),
            low: round(phaserShare.low, 3),
            high: round(phaserShare.high, 3),
          },
    failure:
      failure === null
        ? null
        : {
            probability: round(failure.probability, 3),
            low: round(failure.low, 3),
            high: round(failure.high, 3),
            ownDataShare: round(failure.ownDataShare, 2),
            basis: failure.basis,
            components: {
              chain: failure.components.chain === null ? null : round(failure.components.chain, 3),
              phaser: failure.components.phaser === null ? null : round(failure.components.phaser, 3),
            },
            contributions: failure.contributions.map(({ cause, logHazard }) => ({
              cause,
              logHazard: round(logHazard, 3),
            })),
          },
    notKnown,
    nextStep: nextStep(view, call),
    dueReason: oil?.due?.governing ?? oil?.advice.governing ?? null,
    chanceDueByWeek:
      oil === null || oil.due === null
        ? []
        : [oil.due.chancePastNow, ...oil.due.weeklyProbability].map((p) => round(p, 3)),
  };
}
