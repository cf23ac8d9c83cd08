import { createHash } from 'node:crypto';
import { bookedPlaces } from '../../models/assessment/bookedPlaces.ts';
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
import { addVisit, listVisits } from '../store/visits.ts';
import { shopInputsOf } from './planShop.ts';

/** A change that the plan as it stands does not allow, in a sentence. */
export class PlanRefused extends Error {}

interface Stand {
  readonly inputs: ShopInputs;
  readonly plan: ShopPlan;
  readonly booked: readonly FormerPlace[];
  readonly visits: readonly Visit[];
  readonly query: Required<PlanQuery>;
}

const lockNote = 'plan_locks';

async function locksOf(store: Store): Promise<FormerPlace[]> {
  return JSON.parse((await storeNote(store, lockNote)) ?? '[]') as FormerPlace[];
}

/** The key under which a plan holds: records, day, span, build, and every visit that is locked or booked. */
async function keyOf(context: Context, store: Store, query: Required<PlanQuery>): Promise<string> {
  const held = createHash('sha256')
    .update(JSON.stringify([await locksOf(store), listVisits(store).map(({ id, version }) => [id, version])]))
    .digest('hex');
  const day = await context.asOf(store);
  return [
    store.file,
    await revisionOf(store),
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
async function inputsOf(context: Context, store: Store, query: Required<PlanQuery>) {
  const key = [store.file, await revisionOf(store), await context.asOf(store), query.from, query.weeks].join(
    '|',
  );
  const known = inputsInMemory.get(key);
  const plain = known ?? (await shopInputsOf(context, store, query));
  if (known === undefined) {
    inputsInMemory.clear();
    inputsInMemory.set(key, plain);
  }
  const visits = listVisits(store);
  const booked = bookedPlaces(plain, visits);
  const taken = new Set(booked.flatMap(({ jobIds }) => jobIds));
  const locks = (await locksOf(store)).filter(({ jobIds }) => !jobIds.some((id) => taken.has(id)));
  return { inputs: { ...plain, locked: [...booked, ...locks] }, booked, visits };
}

async function standOf(context: Context, store: Store, asked: PlanQuery): Promise<Stand> {
  const query = { from: asked.from ?? (await context.asOf(store)), weeks: asked.weeks };
  const rest = await inputsOf(context, store, query);
  const key = await keyOf(context, store, query);
  const earlier = findKeptResult(store, key);
  if (earlier !== null) return { ...rest, query, plan: JSON.parse(earlier) as ShopPlan };
  const plan = planShop(rest.inputs);
  keepResult(store, key, JSON.stringify(plan), context.now());
  return { ...rest, query, plan };
}

const isAt = (place: FormerPlace, visit: PlanVisit): boolean =>
  place.unitNumber === visit.unitNumber && visit.jobDetails.some(({ jobId }) => place.jobIds.includes(jobId));

async function answerOf(store: Store, { inputs, plan, visits }: Stand): Promise<PlanAnswer> {
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
 * @throws PlanRefused when the visit is gone, booked, or can't be there
 */
export async function changePlan(
  context: Context,
  store: Store,
  query: PlanQuery,
  change: Exclude<PlanChange, { kind: 'records' }>,
): Promise<PlanAnswer> {
  const stand = await standOf(context, store, query);
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
  keepResult(store, await keyOf(context, store, stand.query), JSON.stringify(plan), context.now());
  return answerOf(store, { ...stand, plan });
}

/** Books the visits of the plan that begin by a day and are not booked yet; they stay where they are from then on. */
export async function publishPlan(
  context: Context,
  store: Store,
  query: PlanQuery,
  through: string,
  by: string,
): Promise<PlanAnswer & { published: number }> {
  const stand = await standOf(context, store, query);
  const fresh = stand.plan.visits.filter(
    (visit) => visit.on <= through && !stand.booked.some((place) => isAt(place, visit)),
  );
  const at = context.now();
  store.sqlite.transaction(() => {
    for (const visit of fresh) book(store, visit, by, at);
  })();
  const rest = await inputsOf(context, store, stand.query);
  const plan = replan(rest.inputs, stand.plan, { kind: 'records' });
  keepResult(store, await keyOf(context, store, stand.query), JSON.stringify(plan), context.now());
  return { ...(await answerOf(store, { ...stand, ...rest, plan })), published: fresh.length };
}

function book(store: Store, visit: PlanVisit, by: string, at: string): void {
  addVisit(
    store,
    {
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
      plannedCents: visit.costCents,
      actualHours: null,
      actualCents: null,
      batch: null,
    },
    {
      at,
      by,
      reason: null,
      approver: null,
      manager: null,
      newDate: null,
      risk: null,
      words: `booked from the shop plan for ${visit.on}`,
    },
  );
}
