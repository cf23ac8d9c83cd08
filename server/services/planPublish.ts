import { visitBill } from '../../models/assessment/visitBill.ts';
import { replanWork } from '../../models/decisions/shop/replan.ts';
import type { FleetHistory } from '../../models/schema/history.ts';
import type { PlanAnswer, PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { PlanVisit } from '../../models/schema/shopPlan.ts';
import type { Stock } from '../../models/schema/shopResources.ts';
import type { Visit } from '../../models/schema/visit.ts';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import { shelves } from '../store/stockShelf.ts';
import { addVisit, changeVisit, type NewMove, type VisitFields } from '../store/visits.ts';
import { standingFleet } from './fleetQuestion.ts';
import { answerOf, inputsOf, isAt, noteChange, standOf } from './planBook.ts';
import { keepPlan, keyOf } from './planKey.ts';
import { planOnThreads } from './planThreads.ts';

/**
 * Books the visits of the plan that begin by a day and are not booked yet; they stay where they are from then on. A visit
 * that was asked for is the one that is booked.
 * @param seen the stand that the writer saw; left out: any
 * @throws PlanChanged when the plan is another now
 */
export async function publishPlan(
  context: Context,
  store: Store,
  query: PlanQuery,
  through: string,
  by: string,
  seen?: string,
): Promise<PlanAnswer & { published: number }> {
  const stand = await standOf(context, store, query, seen);
  const fresh = stand.plan.visits.filter(
    (visit) => visit.on <= through && !stand.booked.some((place) => isAt(place, visit)),
  );
  const fleet = await standingFleet(context, store);
  const stock = shelves(store, null, fleet.asOf);
  const at = context.now();
  store.sqlite.transaction(() => {
    const open = stand.visits.filter(({ state }) => waiting.has(state));
    for (const visit of fresh) {
      const asked = open.find(
        ({ unitNumber, jobs }) =>
          unitNumber === visit.unitNumber && jobs.every((job) => visit.jobs.includes(job)),
      );
      if (asked !== undefined) open.splice(open.indexOf(asked), 1);
      book(store, visit, asked ?? null, plannedCents(context, fleet, stock, visit), by, at);
    }
  })();
  if (fresh.length > 0) await noteChange(store, `${by} published it through ${through}`);
  const key = await keyOf(context, store, stand.query);
  const rest = await inputsOf(context, store, stand.query);
  const work = replanWork(rest.inputs, stand.plan, { kind: 'records' });
  const plan = await planOnThreads(context.paths, work);
  const answer = keepPlan(context, store, key, await answerOf(store, { ...stand, ...rest, plan, key }));
  return { ...answer, published: fresh.length };
}

const waiting = new Set<Visit['state']>(['asked', 'put_off', 'did_not_come']);

/** What a visit should come to: the price of an outside shop, else labour, parts and oil; null = not known. */
function plannedCents(
  { coefficients }: Context,
  fleet: FleetHistory,
  stock: readonly Stock[],
  visit: PlanVisit,
): number | null {
  // parts of 0 are not listed
  if (visit.place !== 'bay') return visit.costParts.find(({ part }) => part === 'price')?.cents ?? 0;
  const same = (a: string | null, b: string): boolean => (a ?? '').toLowerCase() === b.toLowerCase();
  const rate = fleet.sites.find(({ site }) => same(site, visit.site))?.labourRatePerHourCents;
  const unit = fleet.units.find(({ unit: { unitNumber } }) => unitNumber === visit.unitNumber);
  return visitBill(
    { jobs: visit.jobDetails, hours: visit.hours },
    rate ?? coefficients['money.labour_cents_per_hour'],
    unit?.engine ?? null,
    (item) =>
      stock.find((entry) => same(entry.site, visit.site) && same(entry.item, item))?.unitCostCents ?? null,
  ).cents;
}

function book(
  store: Store,
  visit: PlanVisit,
  asked: Visit | null,
  cents: number | null,
  by: string,
  at: string,
): void {
  const fields: VisitFields = {
    planVisitId: visit.id,
    unitNumber: visit.unitNumber,
    site: visit.site,
    place: visit.place,
    outsideShop: visit.outsideShop,
    bay: visit.bay,
    technician: visit.technician,
    on: visit.on,
    lastDay: visit.lastDay,
    startMinute: visit.startMinute,
    endMinute: visit.endMinute,
    startsAt: visit.startsAt,
    endsAt: visit.endsAt,
    jobs: [...new Set(visit.jobs)],
    state: 'booked',
    plannedHours: visit.hours,
    plannedCents: cents,
    actualHours: null,
    actualCents: null,
    batch: null,
  };
  const move: NewMove = {
    at,
    by,
    reason: null,
    approver: null,
    manager: null,
    newDate: null,
    risk: null,
    words: `booked from the shop plan for ${visit.on}`,
  };
  if (asked === null) addVisit(store, fields, move);
  else changeVisit(store, asked, fields, move);
}
