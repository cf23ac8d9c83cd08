import { looksOf } from '../../models/assessment/looksOf.ts';
import { callMoneySetting } from '../../models/assessment/renewalPays.ts';
import type { UnitLooks } from '../../models/schema/looksEndpoint.ts';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import { workFleet } from './assessStore.ts';

/** Looks and reasons of wear of one unit, or null when there is no such unit in service. */
export async function unitLooksOf(
  context: Context,
  store: Store,
  unitNumber: string,
  asOf?: string,
  horizonDays?: number,
): Promise<UnitLooks | null> {
  const { fleet, view } = await workFleet(context, store, asOf, horizonDays);
  const wanted = unitNumber.toLowerCase();
  const own = [...view.views.values()].find(
    ({ history }) => history.unit.unitNumber.toLowerCase() === wanted,
  );
  if (own === undefined) return null;
  const setting = callMoneySetting(view.assessment.horizonDays, view.fit.shape.value);
  return looksOf(own, setting, fleet.settings.currency, context.coefficients);
}
