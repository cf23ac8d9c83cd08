import { inService } from '../../models/assessment/assembleFleet.ts';
import { unitAssessmentOf } from '../../models/assessment/assessUnit.ts';
import type { FleetLearned } from '../../models/assessment/fleetLearned.ts';
import { unitStoryOf as storyOf } from '../../models/assessment/unitStory.ts';
import type { UnitView } from '../../models/assessment/unitView.ts';
import { viewByLearned } from '../../models/assessment/viewByLearned.ts';
import { whatIfInputs } from '../../models/assessment/whatIfInputs.ts';
import { unitWorker } from '../../models/assessment/workedUnit.ts';
import type { UnitAssessment } from '../../models/schema/assessment.ts';
import { dayFromIso } from '../../models/schema/day.ts';
import type { Settings } from '../../models/schema/settings.ts';
import type { UnitStory } from '../../models/schema/story.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import type { Store } from '../store/openStore.ts';
import { askFleet } from './askFleet.ts';
import { holdersOn, questionOf } from './fleetQuestion.ts';
import { unpack } from './packed.ts';

/** One unit in service, worked out from its own records by what its fleet taught. */
export interface UnitNow {
  readonly view: UnitView;
  readonly assessment: UnitAssessment;
  readonly learned: FleetLearned;
  readonly settings: Settings;
  /** where the fleet is being worked through anew: the moment at which it last was; the unit's own records are all in */
  readonly formerOf: string | null;
}

/** The unit's own records are in whatever the fleet teaches: little is gained by waiting. */
const patienceMs = 1000;

let lastLearned: { readonly text: string; readonly learned: FleetLearned } | null = null;

/** The newest stays unpacked: pages ask of one fleet again and again. */
function unpacked(text: string): FleetLearned {
  if (lastLearned?.text !== text) lastLearned = { text, learned: unpack(text) };
  return lastLearned.learned;
}

const mostUnits = 8;
const known = new Map<string, UnitNow>();

/** Works out the unit in service that has a number; null when there is none. */
export async function unitNow(
  context: Context,
  store: Store,
  unitNumber: string,
  asOf?: string,
  horizonDays?: number,
): Promise<UnitNow | null> {
  const ask = { name: 'learned', asOf, horizonDays } as const;
  let { text, formerOf } = await askFleet(context, store, ask, patienceMs);
  // a fleet that had no units taught nothing: its first ones wait
  if (formerOf !== null && unpacked(text).rates === null)
    ({ text, formerOf } = await askFleet(context, store, ask, Number.POSITIVE_INFINITY));
  const question = await questionOf(context, store, asOf, horizonDays);
  const key = [question.key, formerOf, unitNumber.trim().toLowerCase()].join('|');
  const earlier = known.get(key);
  if (earlier !== undefined) return earlier;
  const learned = unpacked(text);
  const models = fleetModels(context.coefficients);
  const { settings } = question;
  const fleet = holdersOn(store, question, unitNumber);
  const history = fleet.units.filter((unit) => inService(unit, fleet.asOf)).at(-1);
  if (history === undefined) return null;
  const worked = unitWorker(learned.pooled, models, settings, dayFromIso(fleet.asOf))(history);
  const view = viewByLearned(worked, learned, models, settings);
  // what a site has room for is not known anew before its whole fleet is
  const call = (formerOf === null ? learned.calls.get(history.unit.source.id) : undefined) ?? view.call;
  const own: UnitNow = { view, assessment: unitAssessmentOf(view, call), learned, settings, formerOf };
  known.set(key, own);
  if (known.size > mostUnits) known.delete(known.keys().next().value!);
  return own;
}

/** The same as the models see it. */
export async function unitViewOf(
  context: Context,
  store: Store,
  unitNumber: string,
  asOf?: string,
): Promise<UnitView | null> {
  return (await unitNow(context, store, unitNumber, asOf))?.view ?? null;
}

/** All that a unit's page shows. */
export function unitStoryOf(context: Context, { view, assessment, learned }: UnitNow): UnitStory {
  return storyOf(view, assessment, learned.alarms, fleetModels(context.coefficients));
}

/** What the what-if of one unit works with in the browser. */
export function unitInputs(context: Context, { view }: UnitNow): Record<string, unknown> {
  return { ...whatIfInputs(view, fleetModels(context.coefficients)) };
}
