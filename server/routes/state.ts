import type { Express } from 'express';
import type { StateResponse } from '../../models/schema/endpoints.ts';
import { modelVersion } from '../../models/assessment/modelVersion.ts';
import { version } from '../config.ts';
import type { Context } from '../context.ts';
import { newestRecordOn } from '../store/flatRecords.ts';
import { countRecords } from '../store/counts.ts';
import { loadSettings, revisionOf } from '../store/settings.ts';
import { serveEndpoint } from './endpoint.ts';

async function stateOf(context: Context): Promise<StateResponse> {
  const store = await context.current();
  const asOf = await context.asOf(store);
  return {
    store: context.currentKind(),
    ownExists: context.currentKind() === 'own',
    revision: await revisionOf(store),
    asOf,
    newestRecordOn: newestRecordOn(store, asOf),
    ...countRecords(store),
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
