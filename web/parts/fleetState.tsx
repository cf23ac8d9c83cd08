import { createContext, type ComponentChildren } from 'preact';
import { useContext, useEffect } from 'preact/hooks';
import type { StateResponse } from '../../models/schema/endpoints.ts';
import { defaultSettings, type Settings } from '../../models/schema/settings.ts';
import { setReaderMeasures } from '../format/readerMeasures.ts';
import { useConnection } from './connection.ts';
import { useRead, type Reading } from './useRead.ts';

/** How often a page asks whether the server answers again, ms. */
const askAgainMs = 15_000;

const StateContext = createContext<Reading<StateResponse> | null>(null);

/** Reads once which store is shown; every page uses the same answer and can ask for it anew. */
export function StateProvider({ children }: { children: ComponentChildren }) {
  const state = useRead<'state'>('/api/state');
  setReaderMeasures(state.data?.settings ?? defaultSettings);
  useEffect(() => {
    const look = (): void => {
      if (document.visibilityState === 'visible') state.again();
    };
    document.addEventListener('visibilitychange', look);
    return () => document.removeEventListener('visibilitychange', look);
  }, [state.again]);
  const away = useConnection() !== 'here';
  useEffect(() => {
    if (!away) return undefined;
    const asking = setInterval(state.again, askAgainMs);
    window.addEventListener('online', state.again);
    return () => {
      clearInterval(asking);
      window.removeEventListener('online', state.again);
    };
  }, [away, state.again]);
  return <StateContext.Provider value={state}>{children}</StateContext.Provider>;
}

/** The state of the store that is shown. */
export function useFleetState(): Reading<StateResponse> {
  const state = useContext(StateContext);
  if (state === null) throw new Error('useFleetState: must be used inside StateProvider');
  return state;
}

/** The shop's settings; the defaults until they are known. */
export function useSettings(): Settings {
  return useFleetState().data?.settings ?? defaultSettings;
}
