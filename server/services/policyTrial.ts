import { evenDeviates } from '../../models/assessment/moneyUnitOf.ts';
import { policyTrialOf } from '../../models/assessment/policyTrialOf.ts';
import { dutyGroupName } from '../../models/assessment/standingPolicy.ts';
import { seededRandom } from '../../models/numeric/random.ts';
import type { PolicyTrialDocument } from '../../models/schema/policyTrial.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import type { Store } from '../store/openStore.ts';
import { fleetUnits } from './fleetUnits.ts';
import { usualSeed } from './moneyCase.ts';

const draws = 4000;
const parameterDraws = 64;

/** Tries an interval on a duty group; null when the fleet has no such group, or nothing to go by. */
export async function tryPolicy(
  context: Context,
  store: Store,
  question: { readonly duty: string; readonly intervalKm: number; readonly months: number },
  asOf?: string,
): Promise<PolicyTrialDocument | null> {
  const { fleet, learned, views } = await fleetUnits(context, store, asOf);
  const { coefficients, oilCatalog } = fleetModels(context.coefficients);
  const wanted = dutyGroupName(question.duty).toLowerCase();
  const trial = policyTrialOf(
    [...views()].filter(({ history }) => dutyGroupName(history.unit.duty).toLowerCase() === wanted),
    { intervalKm: question.intervalKm, months: question.months, draws, seed: usualSeed },
    oilCatalog,
    fleet.settings.oilServiceHours,
    {
      horizonDays: learned.horizonDays,
      shape: learned.shape,
      fleetDeviates: evenDeviates(parameterDraws),
      fleetShare: coefficients['money.fleet_share_of_doubt'],
      random: seededRandom(usualSeed),
    },
    coefficients,
  );
  return trial === null ? null : { ...trial, asOf: fleet.asOf, currency: fleet.settings.currency };
}
