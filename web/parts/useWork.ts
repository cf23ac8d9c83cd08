import { useEffect, useRef } from 'preact/hooks';
import { RequestError, type Answer } from '../api.ts';
import { useRead } from './useRead.ts';

/** What the server works out off its request thread; the last result stays until the next is ready. */
export interface WorkReading<T> {
  readonly data: T | null;
  /** steps done while it is worked on; null when it is not */
  readonly working: { readonly done: number; readonly total: number } | null;
  readonly error: RequestError | null;
  readonly again: () => void;
}

type WorkName = 'budgetWork' | 'planWork';

const askAgainMs = 300;

/** @param path null: nothing is asked */
export function useWork<N extends WorkName>(
  path: string | null,
  query: Record<string, string | number | undefined>,
  version: unknown,
): WorkReading<NonNullable<Answer<N>['result']>> {
  const read = useRead<WorkName>(path, query, version);
  const last = useRef<NonNullable<Answer<N>['result']> | null>(null);
  const answer = read.data as Answer<N> | null;
  if (path === null) last.current = null;
  else last.current = answer?.result ?? last.current;
  useEffect(() => {
    if (answer?.state !== 'working') return undefined;
    const timer = setTimeout(read.again, askAgainMs);
    return () => clearTimeout(timer);
  }, [answer]);
  const failed =
    answer?.state === 'failed'
      ? new RequestError(500, 'fault', answer.reason ?? 'It could not be worked out.')
      : null;
  const waits = path !== null && read.error === null && failed === null;
  return {
    data: last.current,
    working:
      waits && (read.loading || answer?.state === 'working')
        ? { done: answer?.done ?? 0, total: answer?.total ?? 0 }
        : null,
    error: read.error ?? failed,
    again: read.again,
  };
}
