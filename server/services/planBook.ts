import { bookedPlaces } from '../../models/assessment/bookedPlaces.ts';
import { loansOf } from '../../models/assessment/loansOf.ts';
import { costOfMove } from '../../models/decisions/shop/costOfMove.ts';
import { placeOf } from '../../models/decisions/shop/formerPlace.ts';
import { planWork } from '../../models/decisions/shop/planShop.ts';
import { replanWork } from '../../models/decisions/shop/replan.ts';
import type { FormerPlace, ShopInputs } from '../../models/decisions/shop/shopInputs.ts';
import type { PlanAnswer, PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { MoveCost, MoveTarget, PlanChange, PlanVisit, ShopPlan } from '../../models/schema/shopPlan.ts';
import type { Visit } from '../../models/schema/visit.ts';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import { loadSettings, revisionOf, setStoreNote } from '../store/settings.ts';
import { shopRecordStand, listShopResources } from '../store/shopResources.ts';
import { listVisits } from '../store/visits.ts';
import { askFleet } from './askFleet.ts';
import type { PlanData } from './fleetAnswers.ts';
import { askedJobs } from './planAsked.ts';
import {
  changeNote,
  checkSeen,
  keepPlan,
  keptPlan,
  keyOf,
  locksOf,
  lockNote,
  standText,
  wholeQuery,
} from './planKey.ts';
import { unpack } from './packed.ts';
import { zoneOffset } from './planShopZone.ts';
import { planOnThreads } from './planThreads.ts';

/** A change that the plan as it stands does not allow, in a sentence. */
export class PlanRefused extends Error {}

/** A plan with what it rests on. */
export interface Stand {
  readonly inputs: ShopInputs;
  readonly plan: ShopPlan;
  readonly booked: readonly FormerPlace[];
  readonly visits: readonly Visit[];
  readonly query: Required<PlanQuery>;
  /** changes with every change of the plan */
  readonly key: string;
}

const inputsInMemory = new Map<string, ShopInputs>();

/** What a plan rests on before anything is booked: kept, since a move asks for it again. */
async function plainInputs(context: Context, store: Store, query: Required<PlanQuery>): Promise<ShopInputs> {
  const more = { ...query, shop: shopRecordStand(store) };
  const { text } = await askFleet(context, store, { name: 'planInputs', more }, Number.POSITIVE_INFINITY);
  return { ...unpack<PlanData>(text), offsetMinutes: zoneOffset };
}

/** What a plan rests on, with booked and locked visits as places that it keeps. */
export async function inputsOf(context: Context, store: Store, query: Required<PlanQuery>) {
  const key = [
    store.file,
    await revisionOf(store),
    shopRecordStand(store),
    await context.asOf(store),
    query.from,
    query.weeks,
  ].join('|');
  const known = inputsInMemory.get(key);
  const plain = known ?? (await plainInputs(context, store, query));
  if (known === undefined) {
    inputsInMemory.clear();
    inputsInMemory.set(key, plain);
  }
  const visits = listVisits(store);
  const asked = await askedJobs(context, store, plain, visits);
  const due = { ...plain, jobs: [...plain.jobs, ...asked] };
  const booked = bookedPlaces(due, visits);
  const taken = new Set(booked.flatMap(({ jobIds }) => jobIds));
  const locks = (await locksOf(store)).filter(({ jobIds }) => !jobIds.some((id) => taken.has(id)));
  return { inputs: { ...due, locked: [...booked, ...locks] }, booked, visits };
}

/**
 * The plan as it stands; worked out here where it was not before.
 * @param seen the stand that a writer saw; left out: any
 * @param progress told how many of the steps are done: the fleet, then each site
 * @throws PlanChanged when it is another now
 */
export async function standOf(
  context: Context,
  store: Store,
  asked: PlanQuery,
  seen?: string,
  progress: (done: number, total: number) => void = () => undefined,
): Promise<Stand> {
  const query = await wholeQuery(context, store, asked);
  const key = await keyOf(context, store, query);
  await checkSeen(store, key, seen);
  const rest = await inputsOf(context, store, query);
  const kept = keptPlan(store, key);
  if (kept !== null) return { ...rest, query, key, plan: kept.plan };
  const plan = await planOnThreads(context.paths, planWork(rest.inputs), (done, total) =>
    progress(1 + done, 1 + total),
  );
  const stand = { ...rest, query, key, plan };
  keepPlan(context, store, key, await answerOf(store, stand));
  return stand;
}

/** Whether a place holds one of the visit's jobs. */
export const isAt = (place: FormerPlace, visit: PlanVisit): boolean =>
  place.unitNumber === visit.unitNumber && visit.jobDetails.some(({ jobId }) => place.jobIds.includes(jobId));

/** What is answered of a plan. */
export async function answerOf(store: Store, { inputs, plan, visits, key }: Stand): Promise<PlanAnswer> {
  const { currency } = await loadSettings(store);
  const bookings = visits.flatMap((visit) =>
    bookedPlaces(inputs, [visit]).map((place) => ({ visit, place })),
  );
  return {
    plan,
    currency,
    sites: inputs.sites.map(({ site, bays, opensAtMinute, closesAtMinute }) => ({
      site,
      bays: [...bays],
      opensAtMinute,
      closesAtMinute,
    })),
    booked: plan.visits.flatMap((visit) => {
      const found = bookings.find(
        (entry) => entry.visit.on === visit.on && visit.locked && isAt(entry.place, visit),
      );
      return found === undefined ? [] : [{ planVisitId: visit.id, visit: found.visit.id }];
    }),
    loans: loansOf(
      plan.visits,
      listShopResources(store).map(({ resource }) => resource),
    ),
    stand: standText(key),
  };
}

function visitOf(stand: Stand, visitId: string): PlanVisit {
  const visit = stand.plan.visits.find(({ id }) => id === visitId);
  if (visit === undefined)
    throw new PlanRefused('This visit is not in the plan any more; look at the plan again.');
  return visit;
}

/** What it costs to put one visit elsewhere. */
export async function moveCostOf(
  context: Context,
  store: Store,
  query: PlanQuery,
  visitId: string,
  to: MoveTarget,
): Promise<MoveCost> {
  const stand = await standOf(context, store, query);
  visitOf(stand, visitId);
  return costOfMove(stand.inputs, stand.plan, visitId, to);
}

/**
 * The plan after a move, a lock or its end; the others stay where that pays. Locks are kept with the store.
 * @param seen the stand that the writer saw; left out: any
 * @throws PlanRefused when the visit is gone, booked, or can't be there; PlanChanged when the plan is another now
 */
export async function changePlan(
  context: Context,
  store: Store,
  query: PlanQuery,
  change: Exclude<PlanChange, { kind: 'records' }>,
  seen?: string,
): Promise<PlanAnswer> {
  const stand = await standOf(context, store, query, seen);
  const visit = visitOf(stand, change.visitId);
  if (stand.booked.some((place) => isAt(place, visit)))
    throw new PlanRefused(`The visit of ${visit.unitNumber} is booked: put it off on the page Visits.`);
  if (change.kind === 'move') {
    const { possible, conflicts } = costOfMove(stand.inputs, stand.plan, change.visitId, change.to);
    if (!possible) throw new PlanRefused(`${visit.unitNumber} can not be there: ${conflicts.join('; ')}.`);
  }
  const without = stand.inputs.locked.filter((place) => !isAt(place, visit));
  const work = replanWork({ ...stand.inputs, locked: without }, stand.plan, change);
  const plan = await planOnThreads(context.paths, work);
  // someone may have changed it while this was worked out
  await checkSeen(store, await keyOf(context, store, stand.query), standText(stand.key));
  const others = (await locksOf(store)).filter((place) => !isAt(place, visit));
  const after = plan.visits.filter((entry) => entry.locked && isAt(placeOf(visit), entry)).map(placeOf);
  await setStoreNote(
    store,
    lockNote,
    JSON.stringify(change.kind === 'unlock' ? others : [...others, ...after]),
  );
  await noteChange(store, changeWords(visit, change));
  const key = await keyOf(context, store, stand.query);
  return keepPlan(context, store, key, await answerOf(store, { ...stand, plan, key }));
}

/** Notes the last change, for whoever wrote at the same time. */
export async function noteChange(store: Store, words: string): Promise<void> {
  await setStoreNote(store, changeNote, words);
}

function changeWords({ unitNumber }: PlanVisit, change: Exclude<PlanChange, { kind: 'records' }>): string {
  if (change.kind === 'move') return `the visit of ${unitNumber} was put on ${change.to.on}`;
  return `the visit of ${unitNumber} was ${change.kind === 'lock' ? 'locked' : 'freed'}`;
}
