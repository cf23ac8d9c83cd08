import { moneyUnitOf, evenDeviates, type MoneySetting } from '../../models/assessment/moneyUnitOf.ts';
import { planInputs } from '../../models/assessment/planInputs.ts';
import { seededRandom } from '../../models/numeric/random.ts';
import { planWork } from '../../models/decisions/shop/planShop.ts';
import type { FormerPlace, ShopInputs } from '../../models/decisions/shop/shopInputs.ts';
import { recommendUnit } from '../../models/decisions/unitRecommendation.ts';
import { dayFromIso } from '../../models/schema/day.ts';
import type { ShopPlan } from '../../models/schema/shopPlan.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import type { Store } from '../store/openStore.ts';
import { listShopResources } from '../store/shopResources.ts';
import { shelves } from '../store/stockShelf.ts';
import { learnedOf } from './actuals.ts';
import { fleetUnits } from './fleetUnits.ts';
import { knowsZone, zoneOffset } from './planShopZone.ts';
import { planOnThreads } from './planThreads.ts';

/** What a plan is asked for. */
export interface PlanRequest {
  /** first day, ISO date */
  readonly from: string;
  readonly weeks: number;
  /** what was known on this day; left out: the store's own day */
  readonly asOf?: string;
  readonly locked?: readonly FormerPlace[];
}

const parameterDraws = 200;
const seed = 20_260_331;

/** Everything that the plan of a store rests on. */
export async function shopInputsOf(
  context: Context,
  store: Store,
  request: PlanRequest,
): Promise<ShopInputs> {
  const { fleet, learned, views } = await fleetUnits(context, store, request.asOf);
  const { coefficients } = context;
  const setting: MoneySetting = {
    horizonDays: learned.horizonDays,
    shape: learned.shape,
    fleetDeviates: evenDeviates(parameterDraws),
    fleetShare: coefficients['money.fleet_share_of_doubt'],
    random: seededRandom(seed),
  };
  const months = Math.max(1, Math.ceil((7 * request.weeks) / 30.4));
  const inputs = planInputs(fleet, learned.calls, views(), {
    fromDay: dayFromIso(request.from),
    weeks: request.weeks,
    locked: request.locked ?? [],
    resources: listShopResources(store).map(({ resource }) => resource),
    shelves: shelves(store, null, fleet.asOf),
    learned: learnedOf(store, fleet, coefficients),
    faultCodes: fleetModels(coefficients).faultCodes,
    recommend: (own) =>
      recommendUnit(moneyUnitOf(own, setting), dayFromIso(fleet.asOf), months, coefficients),
    coefficients,
    offsetMinutes: zoneOffset,
  });
  const strange = inputs.sites.filter(({ timeZone }) => !knowsZone(timeZone));
  return {
    ...inputs,
    messages: [
      ...inputs.messages,
      ...strange.map(
        ({ site, timeZone }) => `the time zone ${timeZone} of ${site} is not known: UTC is taken`,
      ),
    ],
  };
}

/** The shop plan of a store. */
export async function planStore(context: Context, store: Store, request: PlanRequest): Promise<ShopPlan> {
  return planOnThreads(context.paths, planWork(await shopInputsOf(context, store, request)));
}
