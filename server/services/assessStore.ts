import { assessFleet, type FleetView } from '../../models/assessment/assessFleet.ts';
import type { FleetLearned } from '../../models/assessment/fleetLearned.ts';
import type { Assessment } from '../../models/schema/assessment.ts';
import type { FleetHistory } from '../../models/schema/history.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import { newestRecordOn } from '../store/flatRecords.ts';
import { findKeptResult, keepResult } from '../store/keptResults.ts';
import type { Store } from '../store/openStore.ts';
import { fleetOn, questionOf, type Question } from './fleetQuestion.ts';
import { packLearned, unpackLearned } from './packLearned.ts';

export interface Worked {
  readonly key: string;
  readonly fleet: FleetHistory;
  readonly view: FleetView;
}

const mostWorked = 4;
/** Units that fleets in memory may have together; the newest fleet stays whatever its size. */
const mostUnits = 3000;
let worked: Worked[] = [];

function remember(entry: Worked): void {
  let units = 0;
  worked = [entry, ...worked].slice(0, mostWorked).filter(({ fleet }, place) => {
    units += fleet.units.length;
    return place === 0 || units <= mostUnits;
  });
}

/** Works a fleet through in this thread, or finds the result of the same question in memory. */
export async function workFleet(
  context: Context,
  store: Store,
  asOf?: string,
  horizonDays?: number,
): Promise<Worked> {
  const question = await questionOf(context, store, asOf, horizonDays);
  const known = worked.find((entry) => entry.key === question.key);
  if (known !== undefined) return known;
  const fleet = fleetOn(store, question);
  const view = assessFleet(fleet, fleetModels(context.coefficients), question.horizon);
  const entry: Worked = { key: question.key, fleet, view };
  remember(entry);
  return entry;
}

export const assessmentKey = ({ key }: Question): string => `${key}|assessment`;
export const learnedKey = ({ key }: Question): string => `${key}|learned`;

/**
 * Estimates and calls for every unit in service, from what was known on the day. The answer, and what the fleet taught, are
 * kept in the store until records, rules or program change.
 */
export async function assessStore(
  context: Context,
  store: Store,
  asOf?: string,
  horizonDays?: number,
): Promise<Assessment> {
  const question = await questionOf(context, store, asOf, horizonDays);
  const earlier = findKeptResult(store, assessmentKey(question));
  if (earlier !== null) return JSON.parse(earlier) as Assessment;
  const { view } = await workFleet(context, store, asOf, horizonDays);
  const result = { ...view.assessment, newestRecordOn: newestRecordOn(store, question.day) };
  keepResult(store, learnedKey(question), packLearned(view.learned), context.now());
  keepResult(store, assessmentKey(question), JSON.stringify(result), context.now());
  return result;
}

/** What the fleet of a question taught, kept with its assessment. */
export async function learnedOf(context: Context, store: Store, question: Question): Promise<FleetLearned> {
  const kept = findKeptResult(store, learnedKey(question));
  if (kept !== null) return unpackLearned(kept);
  const { view } = await workFleet(context, store, question.day, question.horizon);
  keepResult(store, learnedKey(question), packLearned(view.learned), context.now());
  return view.learned;
}
