import { parentPort, workerData } from 'node:worker_threads';
import type { Paths } from '../config.ts';
import { makeContext } from '../context.ts';
import { openDemo } from '../services/demoStore.ts';
import { performTask, type BackgroundTask } from '../services/backgroundTask.ts';

/** What the server hands to a worker. */
export interface WorkerOrder {
  readonly paths: Paths;
  readonly task: BackgroundTask;
}

/** Entry of a worker thread: does one task on the store that is shown, tells how far it is, and ends. */
async function work({ paths, task }: WorkerOrder): Promise<void> {
  const context = makeContext(paths, () => openDemo(paths, () => undefined));
  try {
    await performTask(context, await context.current(), task, (done, total) =>
      parentPort?.postMessage({ done, total }),
    );
  } finally {
    await context.close();
  }
}

if (parentPort !== null) await work(workerData as WorkerOrder);
