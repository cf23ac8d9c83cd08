import type { Express } from 'express';
import type { Context } from '../context.ts';
import { dropColumnMap, listColumnMaps, renameColumnMap } from '../store/columnMaps.ts';
import { serveEndpoint } from './endpoint.ts';
import { Problem } from './problem.ts';

const missing = (name: string): Problem =>
  new Problem(404, 'no_column_map', `There is no column map "${name}" any more.`);

/** Column maps that people confirmed: list, rename, forget. */
export function columnMapRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'columnMaps', async () => ({ maps: listColumnMaps(await context.current()) }));
  serveEndpoint(app, 'renameColumnMap', async ({ body }) => {
    const outcome = renameColumnMap(await context.current(), body.name, body.to);
    if (outcome === 'missing') throw missing(body.name);
    if (outcome === 'taken')
      throw new Problem(409, 'name_taken', `Another column map has the name "${body.to}" already.`);
    return { name: body.to };
  });
  serveEndpoint(app, 'deleteColumnMap', async ({ body }) => {
    if (!dropColumnMap(await context.current(), body.name)) throw missing(body.name);
    return { name: body.name };
  });
}
