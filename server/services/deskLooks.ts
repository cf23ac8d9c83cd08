import { looksOf } from '../../models/assessment/looksOf.ts';
import { callMoneySetting } from '../../models/assessment/renewalPays.ts';
import type { UnitLooks } from '../../models/schema/looksEndpoint.ts';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import { unitNow } from './unitNow.ts';

/** Looks and reasons of wear of one unit, or null when there is no such unit in service. */
export async function unitLooksOf(
  context: Context,
  store: Store,
  unitNumber: string,
  asOf?: string,
  horizonDays?: number,
): Promise<UnitLooks | null> {
  const own = await unitNow(context, store, unitNumber, asOf, horizonDays);
  if (own === null) return null;
  const setting = callMoneySetting(own.learned.horizonDays, own.learned.shape);
  return looksOf(own.view, setting, own.settings.currency, context.coefficients);
}
