import type { PlanAnswer, PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import type { Background } from './background.ts';
import { checkSeen, keptPlan, keyOf, wholeQuery } from './planKey.ts';
import { wholeAnswer, type Reading } from './reading.ts';

/** The plan of a store, or the work on it, off the request thread. */
export async function readPlan(
  context: Context,
  background: Background,
  store: Store,
  asked: PlanQuery,
  seen?: string,
): Promise<Reading<PlanAnswer>> {
  const query = await wholeQuery(context, store, asked);
  const key = await keyOf(context, store, query);
  await checkSeen(store, key, seen);
  const answer = keptPlan(store, key);
  return answer === null ? { task: background.start(key, { kind: 'plan', query }, 1) } : { answer };
}

/**
 * The plan of a store, however long it takes, kept until records, bookings or locks change.
 * @param seen the stand that a writer saw; left out: any
 * @throws PlanChanged when it is another now
 */
export async function readyPlan(
  context: Context,
  background: Background,
  store: Store,
  asked: PlanQuery,
  seen?: string,
): Promise<PlanAnswer> {
  return wholeAnswer(() => readPlan(context, background, store, asked, seen));
}
