import type { Progress } from './background.ts';

/** An answer that is ready, or the task that works on it. */
export type Reading<T> = { readonly answer: T } | { readonly task: Progress };

/** How far a piece of work is, as it is told to a page. */
export interface WorkState<T> {
  readonly state: 'working' | 'ready' | 'failed';
  /** why it failed */
  readonly reason: string | null;
  readonly done: number;
  readonly total: number;
  readonly result: T | null;
}

/** A page asks again rather than wait longer than this. */
const patienceMs = 1200;

/** Records may change while something is worked out; then it is worked out for them, this often at most. */
const mostTurns = 5;

/** The answer, however long it takes. */
export async function wholeAnswer<T>(read: () => Promise<Reading<T>>): Promise<T> {
  for (let turn = 0; turn < mostTurns; turn++) {
    const reading = await read();
    if ('answer' in reading) return reading.answer;
    await reading.task.finished;
    if (reading.task.failed !== null) throw new Error(reading.task.failed);
  }
  throw new Error('This was not finished: records kept changing. Ask again when they are in.');
}

/** How far the work is after a moment, and the answer when it is ready. */
export async function workState<T>(read: () => Promise<Reading<T>>): Promise<WorkState<T>> {
  let reading = await read();
  if ('task' in reading && reading.task.failed === null) {
    const { finished } = reading.task;
    await Promise.race([finished, new Promise((resolve) => setTimeout(resolve, patienceMs))]);
    if (reading.task.failed === null) reading = await read();
  }
  if ('answer' in reading) return { state: 'ready', reason: null, done: 1, total: 1, result: reading.answer };
  const { done, total, failed } = reading.task;
  return { state: failed === null ? 'working' : 'failed', reason: failed, done, total, result: null };
}
