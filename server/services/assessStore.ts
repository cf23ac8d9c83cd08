import { assessFleet, type FleetView } from '../../models/assessment/assessFleet.ts';
import type { PassResult } from '../../models/assessment/fleetPass.ts';
import { fitSummary, type FitSummary } from '../../models/reliability/fleet/fitSummary.ts';
import type { FleetLearned } from '../../models/assessment/fleetLearned.ts';
import type { Assessment } from '../../models/schema/assessment.ts';
import type { FleetHistory } from '../../models/schema/history.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import { newestRecordOn } from '../store/flatRecords.ts';
import { findKeptResult, keepResult } from '../store/keptResults.ts';
import type { Store } from '../store/openStore.ts';
import { fleetOn, questionOf, type Question } from './fleetQuestion.ts';
import { pack, unpack } from './packed.ts';
import { sharedPass } from './sharedPass.ts';

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

/** The fleet of a question as this thread worked it through, where it still has it. */
export const workedBefore = ({ key }: Question): Worked | null =>
  worked.find((entry) => entry.key === key) ?? null;

/** Works a fleet through in this thread, or finds the result of the same question in memory. */
export async function workFleet(
  context: Context,
  store: Store,
  asOf?: string,
  horizonDays?: number,
): Promise<Worked> {
  const question = await questionOf(context, store, asOf, horizonDays);
  const known = workedBefore(question);
  if (known !== null) return known;
  const fleet = fleetOn(store, question);
  const view = assessFleet(fleet, fleetModels(context.coefficients), question.horizon);
  const entry: Worked = { key: question.key, fleet, view };
  remember(entry);
  return entry;
}

export const assessmentKey = ({ key }: Question): string => `${key}|assessment`;
export const learnedKey = ({ key }: Question): string => `${key}|learned`;
const fitKey = ({ key }: Question): string => `${key}|fit`;

type Said = Pick<PassResult, 'assessment' | 'learned' | 'fit'> &
  Partial<Pick<PassResult, 'promise' | 'samples'>>;

function keepSaid(context: Context, store: Store, question: Question, said: Said): Assessment {
  const assessment = { ...said.assessment, newestRecordOn: newestRecordOn(store, question.day) };
  const keep = (key: string, text: string): void => keepResult(store, key, text, context.now());
  store.sqlite.transaction(() => {
    keep(learnedKey(question), pack(said.learned));
    keep(fitKey(question), JSON.stringify(said.fit));
    for (const name of ['promise', 'samples'] as const)
      if (said[name] !== undefined) keep(`${question.key}|${name}`, JSON.stringify(said[name]));
    keep(assessmentKey(question), JSON.stringify(assessment));
  })();
  return assessment;
}

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
  const said = context.shared ? await sharedPass(context, store, question) : null;
  if (said !== null) return keepSaid(context, store, question, said);
  const { view } = await workFleet(context, store, asOf, horizonDays);
  return keepSaid(context, store, question, { ...view, fit: fitSummary(view.fit) });
}

/** What the fleet of a question taught, kept with its assessment. */
export async function learnedOf(context: Context, store: Store, question: Question): Promise<FleetLearned> {
  const kept = findKeptResult(store, learnedKey(question));
  if (kept !== null) return unpack(kept);
  const said = context.shared ? await sharedPass(context, store, question) : null;
  if (said !== null) {
    keepSaid(context, store, question, said);
    return said.learned;
  }
  const { view } = await workFleet(context, store, question.day, question.horizon);
  keepResult(store, learnedKey(question), pack(view.learned), context.now());
  return view.learned;
}

/** The fit behind an assessment that was worked out before; null where it is not kept. */
export function keptFit(store: Store, question: Question): FitSummary | null {
  const kept = findKeptResult(store, fitKey(question));
  return kept === null ? null : (JSON.parse(kept) as FitSummary);
}
