import { assembleFleet } from '../../models/assessment/assembleFleet.ts';
import { serviceHistory } from '../../models/assessment/serviceHistory.ts';
import type { UnitHistoryDocument } from '../../models/schema/unitEndpoints.ts';
import type { Context } from '../context.ts';
import { loadFlatRecords } from '../store/flatRecords.ts';
import type { Store } from '../store/openStore.ts';
import { loadSettings } from '../store/settings.ts';
import { loadTaught } from '../store/taughtTexts.ts';
import { workReader } from '../workWords.ts';

/** The history of the unit that has a number on a day, from its records alone; null when the number is not on record. */
export async function historyOf(
  context: Context,
  store: Store,
  unitNumber: string,
  asOf?: string,
): Promise<UnitHistoryDocument | null> {
  const day = asOf ?? (await context.asOf(store));
  const flat = loadFlatRecords(store, day, { unitNumber });
  const fleet = assembleFleet(flat, day, await loadSettings(store), workReader(loadTaught(store)));
  const holder = fleet.units.at(-1);
  return holder === undefined ? null : serviceHistory(holder, day);
}
