import { fitChanges } from '../../models/reliability/fleet/fitChanges.ts';
import type { FitSummary } from '../../models/reliability/fleet/fitSummary.ts';
import type { PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { Context } from '../context.ts';
import type { FleetAsk } from '../fleetAsk.ts';
import { keepFit, newestFit } from '../store/fitVersions.ts';
import type { Store } from '../store/openStore.ts';
import { patientWrite } from '../store/patientWrite.ts';
import { keptFit } from './assessStore.ts';
import { answerHere } from './fleetAnswers.ts';
import { budgetAnswer, type BudgetRequest } from './moneyCase.ts';
import { questionOf } from './fleetQuestion.ts';
import { hindcastQuestion, hindcastStore, type HindcastRequest } from './hindcastStore.ts';
import { standOf } from './planBook.ts';

/** Work that is too long for a request. Its results are kept in the store, where the request finds them. */
export type BackgroundTask =
  | { readonly kind: 'hindcast'; readonly request: HindcastRequest }
  | { readonly kind: 'budget'; readonly request: BudgetRequest }
  | { readonly kind: 'plan'; readonly query: Required<PlanQuery> }
  | { readonly kind: 'answer'; readonly ask: FleetAsk }
  /** learns anew from the records, and works out the answers of the first page but for the comparison with the past */
  | { readonly kind: 'refit' };

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
  if (task.kind === 'answer') {
    await answerHere(context, store, task.ask);
    return;
  }
  for (const name of ['assessment', 'list', 'promise', 'samples'] as const)
    await answerHere(context, store, { name });
  const question = await questionOf(context, store);
  const fit = keptFit(store, question);
  if (fit !== null) keepVersion(context, store, question.day, fit);
}

/** Keeps the version of a fit, when it is a new one, with what moved. */
function keepVersion(context: Context, store: Store, asOf: string, after: FitSummary): void {
  const before = newestFit(store);
  if (before?.version === after.version) return;
  const changes = before === null ? [] : fitChanges(before, after);
  patientWrite(store, () => keepFit(store, after, asOf, changes, context.now()));
}
