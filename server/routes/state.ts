import type { Express } from 'express';
import type { StateResponse } from '../../models/schema/endpoints.ts';
import { modelVersion } from '../../models/assessment/modelVersion.ts';
import { version } from '../config.ts';
import type { Context } from '../context.ts';
import { newestRecordOn } from '../store/flatRecords.ts';
import { countHeldRows, countRecords } from '../store/counts.ts';
import type { Store } from '../store/openStore.ts';
import { loadSettings, revisionOf } from '../store/settings.ts';
import { serveEndpoint } from './endpoint.ts';

type Counts = Pick<StateResponse, 'newestRecordOn'> & ReturnType<typeof countRecords>;

let counted: { readonly key: string; readonly counts: Counts } | null = null;

/** Counts of a store, once for each revision, which every change of records raises: pages ask often. */
function countsOf(store: Store, revision: number, asOf: string): Counts {
  const key = [store.file, revision, asOf].join('|');
  if (counted?.key !== key)
    counted = { key, counts: { newestRecordOn: newestRecordOn(store, asOf), ...countRecords(store) } };
  return counted.counts;
}

async function stateOf(context: Context): Promise<StateResponse> {
  const store = await context.current();
  const asOf = await context.asOf(store);
  const revision = await revisionOf(store);
  return {
    store: context.currentKind(),
    ownExists: context.currentKind() === 'own',
    revision,
    asOf,
    ...countsOf(store, revision, asOf),
    heldRows: countHeldRows(store),
    version,
    modelVersion,
    settings: await loadSettings(store),
  };
}

/** Which store is shown, and the step from the demo to own records. */
export function stateRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'state', async () => stateOf(context));
  serveEndpoint(app, 'beginOwn', async () => {
    await context.own();
    return stateOf(context);
  });
}
