import { assembleFleet } from '../../models/assessment/assembleFleet.ts';
import { assessFleet, type FleetView } from '../../models/assessment/assessFleet.ts';
import { fleetListOf } from '../../models/assessment/fleetListOf.ts';
import { fleetMoves } from '../../models/assessment/fleetMoves.ts';
import { promiseKeptOf } from '../../models/assessment/promiseKept.ts';
import { whatIfInputs } from '../../models/assessment/whatIfInputs.ts';
import { unitStoryOf as storyOf } from '../../models/assessment/unitStory.ts';
import type { Assessment } from '../../models/schema/assessment.ts';
import type { Move, RollupResponse } from '../../models/schema/endpoints.ts';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { FleetHistory } from '../../models/schema/history.ts';
import type { Settings } from '../../models/schema/settings.ts';
import { fleetSamplesOf } from '../../models/assessment/fleetSamples.ts';
import type { UnitView } from '../../models/assessment/unitView.ts';
import type { FleetSamples } from '../../models/schema/sampleView.ts';
import type { UnitStory } from '../../models/schema/story.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import { loadApprovals } from '../store/approvals.ts';
import { loadFlatRecords, newestRecordOn } from '../store/flatRecords.ts';
import { findKeptResult, keepResult } from '../store/keptResults.ts';
import { loadPolicies } from '../store/policies.ts';
import type { Store } from '../store/openStore.ts';
import { loadSettings, revisionOf } from '../store/settings.ts';
import { loadTaught } from '../store/taughtTexts.ts';
import { workReader } from '../workWords.ts';
import { fleetRollups } from './rollups.ts';

export interface Worked {
  readonly key: string;
  readonly fleet: FleetHistory;
  readonly view: FleetView;
}

const keptResults = 4;
const worked: Worked[] = [];

interface Question {
  readonly key: string;
  readonly day: string;
  readonly horizon: number;
  readonly settings: Settings;
}

/** What is asked, with the key under which its answer holds: store, revision, day, horizon, and the build that answers. */
async function questionOf(
  context: Context,
  store: Store,
  asOf?: string,
  horizonDays?: number,
): Promise<Question> {
  const settings = await loadSettings(store);
  const day = asOf ?? (await context.asOf(store));
  const horizon = horizonDays ?? settings.horizonDays;
  const key = [store.file, await revisionOf(store), day, horizon, context.paths.web].join('|');
  return { key, day, horizon, settings };
}

function fleetOn(store: Store, { day, settings }: Question): FleetHistory {
  const flat = {
    ...loadFlatRecords(store, day),
    approvals: loadApprovals(store),
    policies: loadPolicies(store),
  };
  return assembleFleet(flat, day, settings, workReader(loadTaught(store)));
}

/** Works a fleet through, or finds the result of the same question in memory. */
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
  worked.unshift(entry);
  worked.length = Math.min(worked.length, keptResults);
  return entry;
}

/**
 * Estimates and calls for every unit in service, from what was known on the day. An answer is kept in the store until
 * records, rules or program change.
 */
export async function assessStore(
  context: Context,
  store: Store,
  asOf?: string,
  horizonDays?: number,
): Promise<Assessment> {
  const { key, day } = await questionOf(context, store, asOf, horizonDays);
  const earlier = findKeptResult(store, key);
  if (earlier !== null) return JSON.parse(earlier) as Assessment;
  const { view } = await workFleet(context, store, asOf, horizonDays);
  const result = { ...view.assessment, newestRecordOn: newestRecordOn(store, day) };
  keepResult(store, key, JSON.stringify(result), context.now());
  return result;
}

/** All that a unit's page shows, or null when there is no such unit in service. */
export async function unitStoryOf(
  context: Context,
  store: Store,
  unitNumber: string,
  asOf?: string,
  horizonDays?: number,
): Promise<UnitStory | null> {
  const { view } = await workFleet(context, store, asOf, horizonDays);
  const assessment = view.assessment.units.find(
    (unit) => unit.unitNumber.toLowerCase() === unitNumber.toLowerCase(),
  );
  const own = assessment === undefined ? undefined : view.views.get(assessment.unitNumber);
  return assessment === undefined || own === undefined
    ? null
    : storyOf(own, assessment, view.learned.alarms, fleetModels(context.coefficients));
}

/** The text of an answer made from the assessment, kept as long as the assessment is. */
async function keptText(
  context: Context,
  store: Store,
  key: string,
  make: () => Promise<unknown>,
): Promise<string> {
  const earlier = findKeptResult(store, key);
  if (earlier !== null) return earlier;
  const text = JSON.stringify(await make());
  keepResult(store, key, text, context.now());
  return text;
}

/** The fleet's list as JSON text: sent as it is kept, without reading it again. */
export async function fleetListText(
  context: Context,
  store: Store,
  asOf?: string,
  horizonDays?: number,
): Promise<string> {
  const { key } = await questionOf(context, store, asOf, horizonDays);
  return keptText(context, store, `${key}|list`, async () =>
    fleetListOf(await assessStore(context, store, asOf, horizonDays)),
  );
}

/** How well the shop keeps its own promise, as JSON text. */
export async function promiseText(context: Context, store: Store, asOf?: string): Promise<string> {
  const { key, day } = await questionOf(context, store, asOf);
  return keptText(context, store, `${key}|promise`, async () => {
    const { view } = await workFleet(context, store, asOf);
    return promiseKeptOf([...view.views.values()], dayFromIso(day), context.coefficients);
  });
}

/** Units whose call or governing limit changed over the last days, with the records that came in between. */
export async function movesOf(
  context: Context,
  store: Store,
  days: number,
): Promise<{ since: string; asOf: string; moves: Move[] }> {
  const question = await questionOf(context, store);
  const text = await keptText(context, store, `${question.key}|moves ${days}`, async () => {
    const now = await assessStore(context, store);
    const since = isoFromDay(dayFromIso(question.day) - days);
    const before = await assessStore(context, store, since);
    return { since, asOf: question.day, moves: fleetMoves(before, now, fleetOn(store, question), since) };
  });
  return JSON.parse(text) as { since: string; asOf: string; moves: Move[] };
}

/** Sums by site, duty and engine family. */
export async function rollupsOf(
  context: Context,
  store: Store,
  asOf?: string,
  horizonDays?: number,
): Promise<RollupResponse> {
  return fleetRollups(await assessStore(context, store, asOf, horizonDays));
}

/** One unit in service as it was worked through, or null when there is none of that number. */
export async function unitViewOf(
  context: Context,
  store: Store,
  unitNumber: string,
  asOf?: string,
): Promise<UnitView | null> {
  const { view } = await workFleet(context, store, asOf);
  const wanted = unitNumber.toLowerCase();
  return (
    [...view.views.values()].find(({ history }) => history.unit.unitNumber.toLowerCase() === wanted) ?? null
  );
}

/** Every sample of units in service against its limits. */
export async function samplesOf(
  context: Context,
  store: Store,
  asOf?: string,
  horizonDays?: number,
): Promise<FleetSamples> {
  const { view } = await workFleet(context, store, asOf, horizonDays);
  const { coefficients, condemningLimits } = fleetModels(context.coefficients);
  return fleetSamplesOf(view, condemningLimits, coefficients);
}

/** What the what-if of one unit works with in the browser, or null when there is no such unit in service. */
export async function unitInputs(
  context: Context,
  store: Store,
  unitNumber: string,
  asOf?: string,
): Promise<Record<string, unknown> | null> {
  const own = await unitViewOf(context, store, unitNumber, asOf);
  if (own === null) return null;
  return { ...whatIfInputs(own, fleetModels(context.coefficients)) };
}
