import { useCallback, useEffect, useState } from 'preact/hooks';
import type { EndpointName } from '../../models/schema/endpoints.ts';
import { read, RequestError, type Answer } from '../api.ts';

/** Where a read stands: loading, here, or failed with a sentence. Earlier data stays while newer is on its way. */
export interface Reading<T> {
  readonly data: T | null;
  readonly error: RequestError | null;
  readonly loading: boolean;
  readonly again: () => void;
}

/** Reads an endpoint and reads again when path, query or `version` change. */
export function useRead<N extends EndpointName>(
  path: string | null,
  query: Record<string, string | number | undefined> = {},
  version: unknown = null,
): Reading<Answer<N>> {
  const [data, setData] = useState<Answer<N> | null>(null);
  const [error, setError] = useState<RequestError | null>(null);
  const [loading, setLoading] = useState(path !== null);
  const [turn, setTurn] = useState(0);
  const key = path === null ? null : JSON.stringify([path, query, version, turn]);
  useEffect(() => {
    if (path === null) return undefined;
    let wanted = true;
    setLoading(true);
    read<N>(path, query)
      .then((answer) => {
        if (!wanted) return;
        setData(answer);
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
  return { data, error, loading, again };
}
