import type { CallResult } from '../decisions/calls.ts';
import type { BookInterval } from '../oil/bookInterval.ts';
import type { UnitTimeline } from '../oil/charge.ts';
import type { RightOil } from '../oil/rightOil.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { FillOf } from '../wear/segments.ts';
import type { UnitStates } from '../wear/states.ts';
import type { OilView } from './assessOil.ts';
import type { StandingApproval } from './standingApproval.ts';
import type { FailureEstimate } from './failureEstimate.ts';
import type { JudgedSample } from './judgeSample.ts';

/** One unit worked through: what the list shows and what its page is made from. */
export interface UnitView {
  readonly history: UnitHistory;
  readonly timeline: UnitTimeline;
  readonly states: UnitStates;
  readonly fillOf: FillOf;
  readonly oil: OilView | null;
  /** the maker's schedule, and the same with the longer interval that stands approved */
  readonly ownBook: BookInterval;
  readonly book: BookInterval;
  readonly standing: StandingApproval;
  /** judged, oldest first */
  readonly samples: readonly JudgedSample[];
  /** whether the right oil is in; null where nothing was filled on record */
  readonly rightOil: RightOil | null;
  readonly failure: FailureEstimate | null;
  readonly failureReason: string | null;
  readonly call: CallResult;
}
