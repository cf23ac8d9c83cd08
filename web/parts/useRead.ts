import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import type { EndpointName } from '../../models/schema/endpoints.ts';
import { formerOf, read, RequestError, type Answer } from '../api.ts';
import { backEvent } from './connection.ts';
import { noteFormer } from './former.ts';

/** Where a read stands: loading, here, or failed with a sentence. Earlier data stays while newer is on its way. */
export interface Reading<T> {
  readonly data: T | null;
  readonly error: RequestError | null;
  readonly loading: boolean;
  readonly again: () => void;
}

const retryEvent = 'sumpwise-retry';
/** How soon it is asked again for an answer that is in work, ms; the server itself waits for it a little. */
const askAgainMs = 2000;

/** Asks every read that failed to try again, wherever on the page it is. */
export function retryAll(): void {
  window.dispatchEvent(new Event(retryEvent));
}

function isSameFormer(one: object, other: object): boolean {
  return formerOf(one) !== null && formerOf(one) === formerOf(other);
}

/**
 * Reads an endpoint and reads again when path, query or `version` change. A version that becomes known after the first
 * read is the one that was read.
 */
export function useRead<N extends EndpointName>(
  path: string | null,
  query: Record<string, string | number | undefined> = {},
  version?: unknown,
): Reading<Answer<N>> {
  const [data, setData] = useState<Answer<N> | null>(null);
  const [error, setError] = useState<RequestError | null>(null);
  const [loading, setLoading] = useState(path !== null);
  const [turn, setTurn] = useState(0);
  const firstVersion = useRef<unknown>(undefined);
  firstVersion.current ??= version;
  const moved = version === firstVersion.current ? null : version;
  const key = path === null ? null : JSON.stringify([path, query, moved, turn]);
  const lastPath = useRef(path);
  useEffect(() => {
    if (lastPath.current !== path) setData(null);
    lastPath.current = path;
    if (path === null) return undefined;
    let wanted = true;
    setLoading(true);
    read<N>(path, query)
      .then((answer) => {
        if (!wanted) return;
        // the same former answer once more draws nothing anew
        setData((shown) => (shown !== null && isSameFormer(shown, answer) ? shown : answer));
        setError(null);
      })
      .catch((reason: unknown) => {
        if (wanted)
          setError(reason instanceof RequestError ? reason : new RequestError(0, 'fault', String(reason)));
      })
      .finally(() => {
        if (wanted) setLoading(false);
      });
    return () => {
      wanted = false;
    };
  }, [key]);
  const again = useCallback(() => setTurn((value) => value + 1), []);
  const former = data === null ? null : formerOf(data);
  useEffect(() => {
    if (former === null) return undefined;
    return noteFormer(former);
  }, [former]);
  useEffect(() => {
    if (former === null || loading) return undefined;
    const timer = setTimeout(again, askAgainMs);
    return () => clearTimeout(timer);
  }, [former, loading, data]);
  useEffect(() => {
    if (error === null) return undefined;
    window.addEventListener(retryEvent, again);
    return () => window.removeEventListener(retryEvent, again);
  }, [error, again]);
  useEffect(() => {
    if (path === null) return undefined;
    window.addEventListener(backEvent, again);
    return () => window.removeEventListener(backEvent, again);
  }, [path === null, again]);
  return { data, error, loading, again };
}
