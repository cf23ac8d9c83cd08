import { existsSync } from 'node:fs';
import { coefficientFile, coefficientValues, type Coefficients } from '../models/schema/coefficient.ts';
import type { z } from 'zod';
import type { Paths } from './config.ts';
import { catalogFiles } from './catalog.ts';
import type { FleetAsk } from './fleetAsk.ts';
import { WriteTurns } from './services/writeTurns.ts';
import { openStore, type Store } from './store/openStore.ts';
import { storeNote } from './store/settings.ts';

/** Everything a verb or a route works with; made once, in one place. */
export interface Context {
  readonly paths: Paths;
  readonly catalog: readonly z.infer<typeof coefficientFile>[];
  readonly coefficients: Coefficients;
  /** today as ISO date, UTC */
  readonly today: () => string;
  readonly now: () => string;
  /** the store that is shown: own records where there are any, else the demo */
  current(): Promise<Store>;
  currentKind(): 'own' | 'demo';
  /** the store for own records; made when it is not there */
  own(): Promise<Store>;
  /** default as-of day of a store: today, for the demo the day it is frozen at */
  asOf(store: Store): Promise<string>;
  close(): Promise<void>;
  /** writes take turns, each with the store to itself */
  readonly writes: WriteTurns;
  /** whether fleets are worked through on a second thread as well */
  readonly shared: boolean;
  /** works out a question about the fleet off this thread, where there is another for it; each key once at a time */
  handOver: ((key: string, ask: FleetAsk) => Promise<void>) | null;
}

/**
 * @param demo opens (and fills) the demo store when it is first wanted
 * @param options `shared`: fleets are worked through on a second thread as well; default false
 */
export function makeContext(
  paths: Paths,
  demo: () => Promise<Store>,
  { shared = false }: { readonly shared?: boolean } = {},
): Context {
  let own: Store | null = null;
  let demoStore: Promise<Store> | null = null;
  const catalog = catalogFiles.map((file) => coefficientFile.parse(file));
  const context: Context = {
    paths,
    catalog,
    coefficients: coefficientValues(catalog),
    today: () => new Date().toISOString().slice(0, 10),
    now: () => new Date().toISOString(),
    currentKind: () => (own !== null || existsSync(paths.ownStore) ? 'own' : 'demo'),
    async current() {
      if (context.currentKind() === 'own') return context.own();
      demoStore ??= demo();
      return demoStore;
    },
    async own() {
      own ??= await openStore(paths.ownStore);
      return own;
    },
    async asOf(store) {
      return (await storeNote(store, 'as_of')) ?? context.today();
    },
    shared,
    handOver: null,
    writes: new WriteTurns(),
    async close() {
      if (own !== null) await own.close();
      if (demoStore !== null) await (await demoStore).close();
    },
  };
  return context;
}
