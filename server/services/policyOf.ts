import { dutyPolicies } from '../../models/assessment/policyDocumentOf.ts';
import type { PolicyDocument } from '../../models/schema/policyDocument.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import { loadPolicies } from '../store/policies.ts';
import type { Store } from '../store/openStore.ts';
import { fleetUnits } from './fleetUnits.ts';

/** Drain intervals per duty group of a store. */
export async function policyOf(context: Context, store: Store, asOf?: string): Promise<PolicyDocument> {
  const { fleet, learned, views } = await fleetUnits(context, store, asOf);
  const { coefficients, oilCatalog } = fleetModels(context.coefficients);
  const duties = dutyPolicies(
    [...views()],
    oilCatalog,
    fleet.settings.oilServiceHours,
    loadPolicies(store),
    fleet.asOf,
    fleet.settings.currency,
    coefficients,
  );
  return {
    duties,
    asOf: fleet.asOf,
    currency: fleet.settings.currency,
    modelVersion: learned.modelVersion,
    notes:
      duties.length === 0
        ? [
            'no unit has both a distance a day and an oil charge on record: there is nothing to set an interval by',
          ]
        : [
            "an interval beyond the book needs lab results, an inspection and a named person's approval, unit by unit",
          ],
  };
}
