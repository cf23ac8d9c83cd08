import type { CalledUnit } from '../decisions/bookingLimit.ts';
import type { CallResult } from '../decisions/calls.ts';
import type { UnitAssessment } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { Settings } from '../schema/settings.ts';
import { unitAssessmentOf } from './assessUnit.ts';
import { calledUnitOf } from './fleetCalls.ts';
import { unitSampleLines, type SampleLine } from './fleetSamples.ts';
import { nextStep } from './nextStep.ts';
import { unitPromiseOf, type UnitPromise } from './promiseKept.ts';
import type { UnitView } from './unitView.ts';

/** What the fleet's lists take from one unit. Plain data: the unit need not stay in memory, nor in the same thread. */
export interface UnitLines {
  /** id of the unit's record */
  readonly unitId: number;
  /** by its own call, before the room of its site is looked at */
  readonly assessment: UnitAssessment;
  readonly called: CalledUnit;
  /** where its site has no room to book it */
  readonly nextStepIfPlanned: string;
  readonly promise: UnitPromise;
  readonly samples: readonly SampleLine[];
}

/** @param asOfDay days since 1970-01-01 */
export function unitLinesOf(
  view: UnitView,
  settings: Settings,
  asOfDay: number,
  coefficients: Coefficients,
): UnitLines {
  return {
    unitId: view.history.unit.source.id,
    assessment: unitAssessmentOf(view, view.call),
    called: calledUnitOf(view, settings),
    nextStepIfPlanned: nextStep(view, { call: 'plan', reasons: [] }),
    promise: unitPromiseOf(view, asOfDay, coefficients),
    samples: unitSampleLines(view, coefficients),
  };
}

/** The line of a unit with the call that the room of its site leaves it. */
export function lineWithCall({ assessment, nextStepIfPlanned }: UnitLines, call: CallResult): UnitAssessment {
  if (call.call === assessment.call) return assessment;
  return { ...assessment, call: call.call, reasons: [...call.reasons], nextStep: nextStepIfPlanned };
}
