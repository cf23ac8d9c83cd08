import { assembleFleet } from '../../models/assessment/assembleFleet.ts';
import { assessFleet, type FleetView } from '../../models/assessment/assessFleet.ts';
import { fleetMoves } from '../../models/assessment/fleetMoves.ts';
import { whatIfInputs } from '../../models/assessment/whatIfInputs.ts';
import { unitStoryOf as storyOf } from '../../models/assessment/unitStory.ts';
import type { Assessment } from '../../models/schema/assessment.ts';
import type { Move, RollupResponse } from '../../models/schema/endpoints.ts';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { FleetHistory } from '../../models/schema/history.ts';
import type { UnitStory } from '../../models/schema/story.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import { loadFlatRecords, newestRecordOn } from '../store/flatRecords.ts';
import type { Store } from '../store/openStore.ts';
import { loadSettings, revisionOf } from '../store/settings.ts';
import { loadTaught } from '../store/taughtTexts.ts';
import { workReader } from '../workWords.ts';
import { fleetRollups } from './rollups.ts';

interface Worked {
  readonly key: string;
  readonly fleet: FleetHistory;
  readonly view: FleetView;
}

const keptResults = 4;
const worked: Worked[] = [];

/** Works a fleet through, or finds the result of the same store, revision, day and horizon. */
async function work(context: Context, store: Store, asOf?: string, horizonDays?: number): Promise<Worked> {
  const settings = await loadSettings(store);
  const day = asOf ?? (await context.asOf(store));
  const horizon = horizonDays ?? settings.horizonDays;
  const key = [store.file, await revisionOf(store), day, horizon].join('|');
  const known = worked.find((entry) => entry.key === key);
  if (known !== undefined) return known;
  const fleet = assembleFleet(loadFlatRecords(store, day), day, settings, workReader(loadTaught(store)));
  const entry: Worked = { key, fleet, view: assessFleet(fleet, fleetModels(context.coefficients), horizon) };
  worked.unshift(entry);
  worked.length = Math.min(worked.length, keptResults);
  return entry;
}

/** Estimates and calls for every unit in service, from what was known on the day. */
export async function assessStore(
  context: Context,
  store: Store,
  asOf?: string,
  horizonDays?: number,
): Promise<Assessment> {
  const { view, fleet } = await work(context, store, asOf, horizonDays);
  return { ...view.assessment, newestRecordOn: newestRecordOn(store, fleet.asOf) };
}

/** All that a unit's page shows, or null when there is no such unit in service. */
export async function unitStoryOf(
  context: Context,
  store: Store,
  unitNumber: string,
  asOf?: string,
  horizonDays?: number,
): Promise<UnitStory | null> {
  const { view } = await work(context, store, asOf, horizonDays);
  const assessment = view.assessment.units.find(
    (unit) => unit.unitNumber.toLowerCase() === unitNumber.toLowerCase(),
  );
  const own = assessment === undefined ? undefined : view.views.get(assessment.unitNumber);
  return assessment === undefined || own === undefined
    ? null
    : storyOf(own, assessment, context.coefficients);
}

/** Units whose call or governing limit changed over the last days, with the records that came in between. */
export async function movesOf(
  context: Context,
  store: Store,
  days: number,
): Promise<{ since: string; asOf: string; moves: Move[] }> {
  const now = await work(context, store);
  const since = isoFromDay(dayFromIso(now.fleet.asOf) - days);
  const before = await work(context, store, since);
  return {
    since,
    asOf: now.fleet.asOf,
    moves: fleetMoves(before.view.assessment, now.view.assessment, now.fleet, since),
  };
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

/** What the what-if of one unit works with in the browser, or null when there is no such unit in service. */
export async function unitInputs(
  context: Context,
  store: Store,
  unitNumber: string,
  asOf?: string,
): Promise<Record<string, unknown> | null> {
  const { view } = await work(context, store, asOf);
  const own = [...view.views.values()].find(
    ({ history }) => history.unit.unitNumber.toLowerCase() === unitNumber.toLowerCase(),
  );
  if (own === undefined) return null;
  return { ...whatIfInputs(own, fleetModels(context.coefficients)) };
}
