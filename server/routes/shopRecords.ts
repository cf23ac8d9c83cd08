import type { Express } from 'express';
import { weekdaysFromText } from '../../models/decisions/shop/weekCalendar.ts';
import { isoDate } from '../../models/schema/day.ts';
import type { ShopResource, ShopRow } from '../../models/schema/shopRecordEndpoints.ts';
import type { Context } from '../context.ts';
import { actualsOf } from '../services/actuals.ts';
import { addShopRow, shopRecordsOf } from '../services/shopRecords.ts';
import { addShopResource, endShopResource } from '../store/shopResources.ts';
import { addStockMovement, listStockMovements } from '../store/stockMovements.ts';
import { shelves, stockOfSite } from '../store/stockShelf.ts';
import { serveEndpoint } from './endpoint.ts';
import { named } from './named.ts';
import { Problem } from './problem.ts';
import { faultProblem } from './visitProblem.ts';

const mostMovements = 200;

/** What is wrong with a resource beyond its form, or null. */
function faultOf(resource: ShopResource): string | null {
  if (resource.kind === 'holiday' && resource.through !== null && resource.through < resource.on)
    return `through must not be before ${resource.on}, got ${resource.through}`;
  if (resource.kind === 'outside_shop' && weekdaysFromText(resource.weekdays) === null)
    return `weekdays must be such as mon-fri or mon,tue,sat, got "${resource.weekdays}"`;
  return null;
}

/** What is wrong with a row beyond its form, or null. */
function rowFault(row: ShopRow): string | null {
  if (row.kind !== 'blackouts') return null;
  const oneDay = isoDate.safeParse(row.from).success;
  if (!oneDay && weekdaysFromText(row.from) === null)
    return `from must be a day or weekdays such as mon,tue, got "${row.from}"`;
  if (oneDay && row.to !== null && row.to < row.from)
    return `to must not be before ${row.from}, got ${row.to}`;
  return null;
}

/** People, places, outside shops, holidays, loan units, shelves, and planned against actual. */
export function shopRecordRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'actuals', async () => actualsOf(context, await context.current()));
  serveEndpoint(app, 'shopRecords', async () => shopRecordsOf(context, await context.current()));
  serveEndpoint(app, 'addShopResource', async ({ body: { resource, by } }) => {
    const fault = faultOf(resource);
    if (fault !== null) throw new Problem(422, 'bad_resource', fault);
    return addShopResource(await context.current(), resource, named(by), context.now());
  });
  serveEndpoint(app, 'endShopResource', async ({ params, body }) => {
    const id = Number(params.id);
    const store = await context.current();
    if (!Number.isInteger(id) || !endShopResource(store, id, named(body.by), context.now()))
      throw new Problem(404, 'no_resource', `There is no entry ${params.id}, or it was ended already.`);
    return { id };
  });
  serveEndpoint(app, 'addShopRow', async ({ body: { row, by } }) => {
    const fault = rowFault(row);
    if (fault !== null) throw new Problem(422, 'bad_row', fault);
    const result = await addShopRow(context, await context.current(), row, named(by));
    if ('faults' in result) throw faultProblem('row_refused', result.faults);
    return result;
  });
  serveEndpoint(app, 'shelf', async () => {
    const store = await context.current();
    const asOf = await context.asOf(store);
    return {
      asOf,
      items: shelves(store, null, asOf)
        .map(({ item, site, onHand, leadTimeDays, unitCostCents }) => ({
          item,
          site,
          onHand,
          leadTimeDays,
          unitCostCents,
        }))
        .sort((a, b) => (`${a.site}|${a.item}` < `${b.site}|${b.item}` ? -1 : 1)),
      movements: listStockMovements(store, mostMovements),
    };
  });
  serveEndpoint(app, 'moveStock', async ({ body }) => {
    const store = await context.current();
    const asOf = await context.asOf(store);
    const on = body.on ?? asOf;
    if (on > asOf) throw new Problem(422, 'date_future', `on must not be after ${asOf}, got ${on}`);
    if (body.quantity === 0) throw new Problem(422, 'no_quantity', 'quantity must not be 0');
    const find = () =>
      stockOfSite(store, body.site, asOf).find(
        ({ item }) => item.trim().toLowerCase() === body.item.toLowerCase(),
      );
    const shelf = find();
    if (shelf === undefined)
      throw new Problem(
        422,
        'no_item',
        `item must be on a shelf of ${body.site}, got "${body.item}": count it first`,
      );
    addStockMovement(
      store,
      {
        ...body,
        on,
        who: named(body.who, 'who'),
        batch: null,
        item: shelf.item,
        site: shelf.site ?? body.site,
      },
      context.now(),
    );
    return { onHand: find()?.onHand ?? null };
  });
}
