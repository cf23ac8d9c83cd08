import { assembleFleet, type FlatRecords } from '../../models/assessment/assembleFleet.ts';
import type { FleetHistory } from '../../models/schema/history.ts';
import type { Settings } from '../../models/schema/settings.ts';
import type { Context } from '../context.ts';
import { loadApprovals } from '../store/approvals.ts';
import { loadFlatRecords } from '../store/flatRecords.ts';
import { loadPolicies } from '../store/policies.ts';
import type { Store } from '../store/openStore.ts';
import { loadSettings, revisionOf } from '../store/settings.ts';
import { loadTaught } from '../store/taughtTexts.ts';
import { spellingOfUnit } from '../store/unitSpelling.ts';
import { workReader } from '../workWords.ts';

/** A question about a fleet, with the key under which its answer holds: store, revision, day, horizon, and the build that answers. */
export interface Question {
  readonly key: string;
  readonly day: string;
  readonly horizon: number;
  readonly settings: Settings;
}

/** Completes what is asked by the store's own day and the settings. */
export async function questionOf(
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

type Asked = Pick<Question, 'day' | 'settings'>;

function assembled(store: Store, flat: FlatRecords, { day, settings }: Asked): FleetHistory {
  const whole = { ...flat, approvals: loadApprovals(store), policies: loadPolicies(store) };
  return assembleFleet(whole, day, settings, workReader(loadTaught(store)));
}

/** The fleet as it was known on the day. */
export function fleetOn(store: Store, asked: Asked): FleetHistory {
  return assembled(store, loadFlatRecords(store, asked.day), asked);
}

/** The same with one number's records alone: its holders, and what the shop has. */
export function holdersOn(store: Store, asked: Asked, unitNumber: string): FleetHistory {
  const spelling = spellingOfUnit(store, unitNumber.trim()) ?? unitNumber;
  return assembled(store, loadFlatRecords(store, asked.day, { unitNumber: spelling }), asked);
}

/** The same without dated records: units, engines, sites, people, shelves and days not spared. */
export async function standingFleet(context: Context, store: Store, asOf?: string): Promise<FleetHistory> {
  const asked = { day: asOf ?? (await context.asOf(store)), settings: await loadSettings(store) };
  return assembled(store, loadFlatRecords(store, asked.day, { dated: false }), asked);
}
