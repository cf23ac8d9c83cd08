import { createHash } from 'node:crypto';
import { bookedPlaces } from '../../models/assessment/bookedPlaces.ts';
import { loansOf } from '../../models/assessment/loansOf.ts';
import { costOfMove } from '../../models/decisions/shop/costOfMove.ts';
import { placeOf } from '../../models/decisions/shop/formerPlace.ts';
import { planShop } from '../../models/decisions/shop/planShop.ts';
import { replan } from '../../models/decisions/shop/replan.ts';
import type { FormerPlace, ShopInputs } from '../../models/decisions/shop/shopInputs.ts';
import type { PlanAnswer, PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { MoveCost, MoveTarget, PlanChange, PlanVisit, ShopPlan } from '../../models/schema/shopPlan.ts';
import type { Visit } from '../../models/schema/visit.ts';
import type { Context } from '../context.ts';
import { findKeptResult, keepResult } from '../store/keptResults.ts';
import type { Store } from '../store/openStore.ts';
import { loadSettings, revisionOf, setStoreNote, storeNote } from '../store/settings.ts';
import { shopRecordStand, listShopResources } from '../store/shopResources.ts';
import { listVisits } from '../store/visits.ts';
import { askedJobs } from './planAsked.ts';
import { shopInputsOf } from './planShop.ts';

/** A change that the plan as it stands does not allow, in a sentence. */
export class PlanRefused extends Error {}

/** Someone else changed the plan first; says what. */
export class PlanChanged extends Error {}

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

const lockNote = 'plan_locks';
const changeNote = 'plan_last_change';

async function locksOf(store: Store): Promise<FormerPlace[]> {
  return JSON.parse((await storeNote(store, lockNote)) ?? '[]') as FormerPlace[];
}

/** The key under which a plan holds: records, day, span, build, and every visit that is locked or booked. */
export async function keyOf(context: Context, store: Store, query: Required<PlanQuery>): Promise<string> {
  const held = createHash('sha256')
    .update(JSON.stringify([await locksOf(store), listVisits(store).map(({ id, version }) => [id, version])]))
    .digest('hex');
  const day = await context.asOf(store);
  return [
    store.file,
    await revisionOf(store),
    shopRecordStand(store),
    day,
    'plan',
    query.from,
    query.weeks,
    held,
    context.paths.web,
  ].join('|');
}

const inputsInMemory = new Map<string, ShopInputs>();

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
  const plain = known ?? (await shopInputsOf(context, store, query));
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

const standText = (key: string): string => createHash('sha256').update(key).digest('hex').slice(0, 16);

/**
 * The plan as it stands.
 * @param seen the stand that a writer saw; left out: any
 * @throws PlanChanged when it is another now
 */
export async function standOf(
  context: Context,
  store: Store,
  asked: PlanQuery,
  seen?: string,
): Promise<Stand> {
  const query = { from: asked.from ?? (await context.asOf(store)), weeks: asked.weeks };
  const rest = await inputsOf(context, store, query);
  const key = await keyOf(context, store, query);
  if (seen !== undefined && seen !== standText(key)) {
    const last = await storeNote(store, changeNote);
    throw new PlanChanged(
      `The plan was changed in the meantime${last === null ? '' : `; the last change: ${last}`}. Look at it again, then repeat your change.`,
    );
  }
  const earlier = findKeptResult(store, key);
  if (earlier !== null) return { ...rest, query, key, plan: JSON.parse(earlier) as ShopPlan };
  const plan = planShop(rest.inputs);
  keepResult(store, key, JSON.stringify(plan), context.now());
  return { ...rest, query, key, plan };
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

/** The plan of a store, kept until records, bookings or locks change. */
export async function planOf(context: Context, store: Store, query: PlanQuery): Promise<PlanAnswer> {
  return answerOf(store, await standOf(context, store, query));
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
  const plan = replan({ ...stand.inputs, locked: without }, stand.plan, change);
  const others = (await locksOf(store)).filter((place) => !isAt(place, visit));
  const after = plan.visits.filter((entry) => entry.locked && isAt(placeOf(visit), entry)).map(placeOf);
  await setStoreNote(
    store,
    lockNote,
    JSON.stringify(change.kind === 'unlock' ? others : [...others, ...after]),
  );
  await noteChange(store, changeWords(visit, change));
  const key = await keyOf(context, store, stand.query);
  keepResult(store, key, JSON.stringify(plan), context.now());
  return answerOf(store, { ...stand, plan, key });
}

/** Notes the last change, for whoever wrote at the same time. */
export async function noteChange(store: Store, words: string): Promise<void> {
  await setStoreNote(store, changeNote, words);
}

function changeWords({ unitNumber }: PlanVisit, change: Exclude<PlanChange, { kind: 'records' }>): string {
  if (change.kind === 'move') return `the visit of ${unitNumber} was put on ${change.to.on}`;
  return `the visit of ${unitNumber} was ${change.kind === 'lock' ? 'locked' : 'freed'}`;
}
