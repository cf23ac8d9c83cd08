import type { Context } from '../context.ts';
import type { FleetAsk } from '../fleetAsk.ts';
import { findFormerResult, findKeptResult } from '../store/keptResults.ts';
import type { Store } from '../store/openStore.ts';
import { answerHere, answerKey } from './fleetAnswers.ts';
import { questionOf, type Question } from './fleetQuestion.ts';

/** An answer, and since when it holds where records changed after it and the new one is in work. */
export interface Told {
  readonly text: string;
  /** ISO moment that a former answer was made; null: this one is of the records as they are */
  readonly formerOf: string | null;
}

/** Whoever asks waits this long for the new answer before the former one is given. */
const usualPatienceMs = 4000;
/** How often it is looked whether the answer is there. */
const stepMs = 250;
/** Records may change while something is worked out; then it is worked out for them, this often at most. */
const mostTurns = 5;

/**
 * The answer to a question about the fleet. Where another thread works the fleet through, a former answer is given while the
 * new one takes long.
 * @param patienceMs how long the new one is waited for where there is a former one
 */
export async function askFleet(
  context: Context,
  store: Store,
  ask: FleetAsk,
  patienceMs = usualPatienceMs,
): Promise<Told> {
  for (let turn = 0; turn < mostTurns; turn++) {
    const question = await questionOf(context, store, ask.asOf, ask.horizonDays);
    const key = answerKey(question, ask);
    const kept = findKeptResult(store, key);
    if (kept !== null) return { text: kept, formerOf: null };
    if (context.handOver === null) return { text: await answerHere(context, store, ask), formerOf: null };
    const work = context.handOver(key, ask);
    const isKept = (): boolean => findKeptResult(store, key) !== null;
    if (await isReady(work, isKept, patienceMs)) continue;
    const former = formerOf(store, question, ask);
    if (former !== null) return { text: former.body, formerOf: former.madeAt };
    await isReady(work, isKept, Number.POSITIVE_INFINITY);
  }
  throw new Error('This was not finished: records kept changing. Ask again when they are in.');
}

/** The newest answer to the same question of earlier records; of the same day where a day was asked for. */
function formerOf(store: Store, question: Question, ask: FleetAsk): { body: string; madeAt: string } | null {
  const [, , day, horizon, build] = question.key.slice(store.file.length).split('|');
  const ending = answerKey(question, ask).slice(question.key.length);
  return findFormerResult(store, `${store.file}|`, (rest) => {
    const [, itsDay, itsHorizon, itsBuild] = rest.split('|');
    return (
      rest.endsWith(ending) &&
      itsHorizon === horizon &&
      itsBuild === build &&
      (ask.asOf === undefined || itsDay === day)
    );
  });
}

/** Whether work was finished within a time, or its answer was found while another question was worked on. */
async function isReady(work: Promise<void>, isKept: () => boolean, mostMs: number): Promise<boolean> {
  let isFinished = false;
  const finished = work.then(() => void (isFinished = true));
  for (let waited = 0; waited < mostMs; waited += stepMs) {
    await Promise.race([finished, new Promise((resolve) => setTimeout(resolve, stepMs))]);
    if (isFinished || isKept()) return true;
  }
  // a failure is told to whoever asks again
  finished.catch(() => undefined);
  return false;
}
