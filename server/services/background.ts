import { Worker } from 'node:worker_threads';
import type { Context } from '../context.ts';
import { workerFile } from '../files/workerFile.ts';
import { revisionOf } from '../store/settings.ts';
import { performTask, type BackgroundTask } from './backgroundTask.ts';

/** Where a task stands. */
export interface Progress {
  done: number;
  total: number;
  /** in words, when it did not succeed */
  failed: string | null;
  finished: Promise<void>;
}

/** Does long work off the request thread, one task at a time, each question once. */
export class Background {
  private readonly context: Context;
  /** whether writes are followed by a refit */
  readonly refits: boolean;
  private readonly tasks = new Map<string, Progress>();
  private last: Promise<void> = Promise.resolve();
  private worker: Worker | null = null;

  constructor(context: Context, options: { refits: boolean }) {
    this.context = context;
    this.refits = options.refits;
  }

  /** Learns anew from the records as they are now, once more if that is under way; only where it is off the request thread. */
  async refit(): Promise<void> {
    if (!this.refits || workerFile(this.context.paths) === null) return;
    const revision = await revisionOf(await this.context.current());
    this.start(`refit ${revision}`, { kind: 'refit' }, 1);
  }

  /**
   * Starts a task unless it is under way already.
   * @param key the question: one key is worked on once at a time
   */
  start(key: string, task: BackgroundTask, total: number): Progress {
    const running = this.tasks.get(key);
    if (running !== undefined && running.failed === null) return running;
    const progress: Progress = { done: 0, total, failed: null, finished: Promise.resolve() };
    const turn = this.last.then(() => this.perform(task, progress));
    progress.finished = turn.then(
      () => void this.tasks.delete(key),
      (error: unknown) => {
        progress.failed = error instanceof Error ? error.message : String(error);
      },
    );
    this.last = progress.finished;
    this.tasks.set(key, progress);
    return progress;
  }

  private perform(task: BackgroundTask, progress: Progress): Promise<void> {
    const file = workerFile(this.context.paths);
    const told = (done: number, total: number): void => void Object.assign(progress, { done, total });
    if (file === null)
      return this.context.current().then((store) => performTask(this.context, store, task, told));
    return new Promise((resolve, reject) => {
      const worker = new Worker(file, { workerData: { paths: this.context.paths, task } });
      this.worker = worker;
      worker.on('message', ({ done, total }: { done: number; total: number }) => told(done, total));
      worker.once('error', reject);
      worker.once('exit', () => resolve());
    });
  }

  /** Ends what is under way; its question is worked out when it is asked again. */
  async close(): Promise<void> {
    await this.worker?.terminate();
  }
}
