import type { PlanAnswer, PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import type { Background, Progress } from './background.ts';
import { checkSeen, keptPlan, keyOf, wholeQuery } from './planKey.ts';

/** A plan that is ready, or the task that works on it. */
export type PlanReading = { readonly answer: PlanAnswer } | { readonly task: Progress };

/** The plan of a store, or the work on it, off the request thread. */
export async function readPlan(
  context: Context,
  background: Background,
  store: Store,
  asked: PlanQuery,
  seen?: string,
): Promise<PlanReading> {
  const query = await wholeQuery(context, store, asked);
  const key = await keyOf(context, store, query);
  await checkSeen(store, key, seen);
  const answer = keptPlan(store, key);
  return answer === null ? { task: background.start(key, { kind: 'plan', query }, 1) } : { answer };
}

/** Records may change while a plan is worked out; then it is worked out for them, this often at most. */
const mostTurns = 5;

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
  for (let turn = 0; turn < mostTurns; turn++) {
    const reading = await readPlan(context, background, store, asked, seen);
    if ('answer' in reading) return reading.answer;
    await reading.task.finished;
    if (reading.task.failed !== null) throw new Error(reading.task.failed);
  }
  throw new Error('The plan was not finished: records kept changing. Ask again when they are in.');
}
