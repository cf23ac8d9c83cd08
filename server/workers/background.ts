import { parentPort, workerData } from 'node:worker_threads';
import type { Paths } from '../config.ts';
import { makeContext } from '../context.ts';
import type { WorkerWord } from '../services/background.ts';
import { performTask, type BackgroundTask } from '../services/backgroundTask.ts';
import { openDemo } from '../services/demoStore.ts';

const tell = (word: WorkerWord): void => parentPort?.postMessage(word);

/** Entry of a worker thread: does the tasks it is handed on the store that is shown, and tells how far it is. */
async function work(paths: Paths, task: BackgroundTask): Promise<void> {
  // a context of its own for each task: the store that is shown may have changed since the last one
  const context = makeContext(paths, () => openDemo(paths, () => undefined), { shared: true });
  try {
    await performTask(context, await context.current(), task, (done, total) => tell({ done, total }));
    tell({ finished: true });
  } catch (error) {
    tell({ failed: error instanceof Error ? error.message : String(error) });
  } finally {
    await context.close();
  }
}

parentPort?.on('message', (task: BackgroundTask) => void work(workerData as Paths, task));
