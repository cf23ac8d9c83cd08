import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { endPass, passLines, ratesOf, taughtBy, type PassResult } from '../../models/assessment/fleetPass.ts';
import type { Context } from '../context.ts';
import { workerFile } from '../files/workerFile.ts';
import { fleetModels } from '../fleetModels.ts';
import { countRecords } from '../store/counts.ts';
import type { Store } from '../store/openStore.ts';
import { revisionOf } from '../store/settings.ts';
import { beginAt, ofHand, type HandAsk, type HandTold } from './fleetHand.ts';
import type { Question } from './fleetQuestion.ts';
import { fleetThreadLimits } from './threadLimits.ts';

/** Fewer units are worked through by one thread before a second one has warmed up. */
const usualLeastUnits = 400;
/** How long an idle second thread stays. */
const restMs = 180_000;

interface Resting {
  readonly worker: Worker;
  readonly end: NodeJS.Timeout;
}

let resting: Resting | null = null;

function takeHand(file: string): Worker {
  if (resting !== null) {
    const { worker, end } = resting;
    resting = null;
    clearTimeout(end);
    return worker;
  }
  const worker = new Worker(file, { resourceLimits: fleetThreadLimits() });
  // one at rest keeps no program from ending; one at work is waited for by its messages
  worker.unref();
  return worker;
}

function layDown(worker: Worker): void {
  const end = setTimeout(() => {
    if (resting?.worker === worker) resting = null;
    void worker.terminate();
  }, restMs).unref();
  resting = { worker, end };
}

/** Ends the second thread that rests, where there is one. */
export async function endHand(): Promise<void> {
  if (resting === null) return;
  const { worker, end } = resting;
  resting = null;
  clearTimeout(end);
  await worker.terminate();
}

/** The next word of the second thread, from the moment it is asked for. */
function nextWord(worker: Worker): Promise<Exclude<HandTold, { failed: string }>> {
  return new Promise((resolve, reject) => {
    worker.ref();
    const done = (): void => {
      worker.off('message', heard).off('error', failed).off('exit', ended).unref();
    };
    const failed = (error: Error): void => {
      done();
      reject(error);
    };
    const ended = (): void => failed(new Error('the second thread ended'));
    const heard = (told: HandTold): void => {
      done();
      if ('failed' in told) reject(new Error(told.failed));
      else resolve(told);
    };
    worker.on('message', heard).on('error', failed).on('exit', ended);
  });
}

/**
 * Works a fleet through on two threads; what is said is what one thread says.
 * @param leastUnits units from which on a second thread pays
 * @returns null where a second thread does not pay or can't be had, or did not do its part: one thread does it then
 */
export async function sharedPass(
  context: Context,
  store: Store,
  question: Question,
  leastUnits = usualLeastUnits,
): Promise<PassResult | null> {
  const file = workerFile(context.paths, 'fleetHand');
  if (file === null || availableParallelism() < 2 || countRecords(store).units < leastUnits) return null;
  const models = fleetModels(context.coefficients);
  const revision = await revisionOf(store);
  const worker = takeHand(file);
  const ask = (asked: HandAsk): void => worker.postMessage(asked);
  try {
    const first = nextWord(worker);
    first.catch(() => undefined);
    ask({ storeFile: store.file, revision, question });
    const pass = beginAt(store, revision, question, models);
    const rates = ratesOf(pass.worked, models);
    // what the thread told meanwhile is read here
    const told = await first;
    if (!('outlook' in told)) throw new Error('the second thread told lines before the outlook');
    const { outlook } = told;
    const second = nextWord(worker);
    second.catch(() => undefined);
    ask({ rates: rates?.rates ?? null });
    const taught = taughtBy(pass, rates?.rates ?? null, outlook, question.horizon);
    const own = passLines(pass, taught, models, (place) => !ofHand(place), rates?.prepared);
    const theirs = await second;
    if (!('lines' in theirs)) throw new Error('the second thread told the outlook twice');
    layDown(worker);
    const lines = pass.active.map((_, place) =>
      ofHand(place) ? theirs.lines[(place - 1) / 2] : own[place / 2],
    );
    return endPass(pass, taught, outlook, lines, models);
  } catch {
    await worker.terminate();
    return null;
  }
}
