import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import { fitChanges } from '../../models/reliability/fleet/fitChanges.ts';
import { fitSummary } from '../../models/reliability/fleet/fitSummary.ts';
import type { PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { Context } from '../context.ts';
import { keepFit, newestFit } from '../store/fitVersions.ts';
import type { Store } from '../store/openStore.ts';
import { assessStore, workFleet } from './assessStore.ts';
import { budgetAnswer, type BudgetRequest } from './moneyCase.ts';
import { hindcastQuestion, hindcastStore, type HindcastRequest } from './hindcastStore.ts';
import { standOf } from './planBook.ts';

/** Work that is too long for a request. Its results are kept in the store, where the request finds them. */
export type BackgroundTask =
  | { readonly kind: 'hindcast'; readonly request: HindcastRequest }
  | { readonly kind: 'budget'; readonly request: BudgetRequest }
  | { readonly kind: 'plan'; readonly query: Required<PlanQuery> }
  /** learns anew from the records, and works out the answers of the first page */
  | { readonly kind: 'refit' };

/** Days back that the first page compares with. */
const movesDays = 7;

/** Does one task on the store. */
export async function performTask(
  context: Context,
  store: Store,
  task: BackgroundTask,
  progress: (done: number, total: number) => void,
): Promise<void> {
  if (task.kind === 'hindcast') {
    const question = await hindcastQuestion(context, store, task.request);
    if (!('refused' in question)) await hindcastStore(context, store, question, progress);
    return;
  }
  if (task.kind === 'budget') {
    await budgetAnswer(context, store, task.request, progress);
    return;
  }
  if (task.kind === 'plan') {
    await standOf(context, store, task.query, undefined, progress);
    return;
  }
  const asOf = await context.asOf(store);
  await assessStore(context, store);
  const { view } = await workFleet(context, store);
  keepVersion(context, store, asOf, view.fit);
  await assessStore(context, store, isoFromDay(dayFromIso(asOf) - movesDays));
}

/** Keeps the version of a fit, when it is a new one, with what moved. */
function keepVersion(
  context: Context,
  store: Store,
  asOf: string,
  fit: Parameters<typeof fitSummary>[0],
): void {
  const before = newestFit(store);
  const after = fitSummary(fit);
  if (before?.version === after.version) return;
  keepFit(store, after, asOf, before === null ? [] : fitChanges(before, after), context.now());
}
