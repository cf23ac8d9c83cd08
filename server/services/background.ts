import { Worker } from 'node:worker_threads';
import type { Context } from '../context.ts';
import type { FleetAsk } from '../fleetAsk.ts';
import { workerFile } from '../files/workerFile.ts';
import { revisionOf } from '../store/settings.ts';
import { answerKey } from './fleetAnswers.ts';
import { questionOf } from './fleetQuestion.ts';
import { fleetThreadLimits } from './threadLimits.ts';
import { performTask, type BackgroundTask } from './backgroundTask.ts';

/** Where a task stands. */
export interface Progress {
  done: number;
  total: number;
  /** in words, when it did not succeed */
  failed: string | null;
  finished: Promise<void>;
}

/** What a worker tells of its task. */
export type WorkerWord =
  | { readonly done: number; readonly total: number }
  | { readonly finished: true }
  | { readonly failed: string };

/** Tasks of one lane follow each other; its worker stays for a while, since the next question is often of the same fleet. */
interface Lane {
  last: Promise<void>;
  worker: Worker | null;
  rest: NodeJS.Timeout | null;
  /** since when it compares with the past, ms; null: it does something else */
  comparingSince: number | null;
}

/** What the records were like before: it gives way to questions about the records as they are. */
const comparison: FleetAsk = { name: 'moves' };
/** A comparison that has run this long is ended for that, ms; a shorter one is soon done. */
const longMs = 5000;

/** How long an idle worker keeps its fleet in memory. */
const restMs = 180_000;

/** How long a failure is told to those who ask how far it is; then the question is worked on anew. */
const tellFailureMs = 3000;

/** Does long work off the request thread, each question once; budgets, plans, hindcasts and answers about the fleet don't wait for each other. */
export class Background {
  private readonly context: Context;
  /** whether the fleet is worked through off the request thread: after writes, and when someone asks */
  readonly refits: boolean;
  private readonly tasks = new Map<string, Progress>();
  private readonly lanes = new Map<string, Lane>();
  private isClosed = false;

  constructor(context: Context, options: { refits: boolean }) {
    this.context = context;
    this.refits = options.refits && workerFile(context.paths) !== null;
    if (this.refits) context.handOver = (key, ask) => this.answer(key, { kind: 'answer', ask });
  }

  private async answer(key: string, task: BackgroundTask): Promise<void> {
    const progress = this.start(key, task, 1);
    await progress.finished;
    if (progress.failed !== null) throw new Error(progress.failed);
  }

  /** Learns anew from the records as they are now, once more if that is under way; only where it is off the request thread. */
  async refit(): Promise<void> {
    if (!this.refits) return;
    const store = await this.context.current();
    const lane = this.laneOf({ kind: 'refit' });
    if (lane.comparingSince !== null && performance.now() - lane.comparingSince > longMs)
      await this.end(lane);
    const { finished } = this.start(`refit ${await revisionOf(store)}`, { kind: 'refit' }, 1);
    // a fault shows when the comparison is asked for
    void finished.then(() => this.compare()).catch(() => undefined);
  }

  private async compare(): Promise<void> {
    if (this.isClosed) return;
    const store = await this.context.current();
    const key = answerKey(await questionOf(this.context, store), comparison);
    this.start(key, { kind: 'answer', ask: comparison }, 1);
  }

  /**
   * Starts a task unless it is under way already or has just failed.
   * @param key the question: one key is worked on once at a time
   */
  start(key: string, task: BackgroundTask, total: number): Progress {
    const running = this.tasks.get(key);
    if (running !== undefined) return running;
    const progress: Progress = { done: 0, total, failed: null, finished: Promise.resolve() };
    const lane = this.laneOf(task);
    const turn = lane.last.then(() => this.perform(lane, task, progress));
    progress.finished = turn.then(
      () => void this.tasks.delete(key),
      (error: unknown) => {
        progress.failed = error instanceof Error ? error.message : String(error);
        setTimeout(() => this.tasks.delete(key), tellFailureMs).unref();
      },
    );
    lane.last = progress.finished;
    this.tasks.set(key, progress);
    return progress;
  }

  private laneOf({ kind }: BackgroundTask): Lane {
    const name = kind === 'refit' ? 'answer' : kind;
    const lane = this.lanes.get(name) ?? {
      last: Promise.resolve(),
      worker: null,
      rest: null,
      comparingSince: null,
    };
    this.lanes.set(name, lane);
    return lane;
  }

  private perform(lane: Lane, task: BackgroundTask, progress: Progress): Promise<void> {
    const file = workerFile(this.context.paths);
    const told = (done: number, total: number): void => void Object.assign(progress, { done, total });
    if (file === null)
      return this.context.current().then((store) => performTask(this.context, store, task, told));
    if (lane.rest !== null) clearTimeout(lane.rest);
    const worker = lane.worker ?? this.begin(lane, file);
    if (task.kind === 'answer' && task.ask.name === comparison.name) lane.comparingSince = performance.now();
    let leave = (): unknown => null;
    return new Promise<void>((resolve, reject) => {
      const heard = (word: WorkerWord): void => {
        if ('done' in word) told(word.done, word.total);
        else if ('failed' in word) reject(new Error(word.failed));
        else resolve();
      };
      const ended = (): void => resolve();
      worker.on('message', heard).on('error', reject).on('exit', ended);
      leave = () => worker.off('message', heard).off('error', reject).off('exit', ended);
      worker.postMessage(task);
    }).finally(() => {
      leave();
      lane.comparingSince = null;
      lane.rest = setTimeout(() => void this.end(lane), restMs).unref();
    });
  }

  private begin(lane: Lane, file: string): Worker {
    // a thread is handed text alone
    const paths: unknown = JSON.parse(JSON.stringify(this.context.paths));
    const worker = new Worker(file, { workerData: paths, resourceLimits: fleetThreadLimits() });
    // one that dies, at work or idle, makes room for another
    const gone = (): void => {
      if (lane.worker === worker) lane.worker = null;
    };
    worker.on('error', gone).on('exit', gone);
    // an idle worker keeps no program from ending
    worker.unref();
    lane.worker = worker;
    return worker;
  }

  private async end(lane: Lane): Promise<void> {
    const { worker } = lane;
    lane.worker = null;
    await worker?.terminate();
  }

  /** Ends what is under way; its question is worked out when it is asked again. */
  async close(): Promise<void> {
    this.isClosed = true;
    await Promise.all([...this.lanes.values()].map((lane) => this.end(lane)));
  }
}
