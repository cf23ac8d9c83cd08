import type { KeptResource, ShopResource } from '../../models/schema/shopRecordEndpoints.ts';
import type { Store } from './openStore.ts';

interface Row {
  readonly id: number;
  readonly body: string;
  readonly madeAt: string;
  readonly madeBy: string;
}

/** Holidays, outside shops and loan units that stand. */
export function listShopResources(store: Store): KeptResource[] {
  const rows = store.sqlite
    .prepare(
      `SELECT id, body, made_at AS madeAt, made_by AS madeBy FROM shop_resource WHERE ended_at IS NULL ORDER BY id`,
    )
    .all() as Row[];
  return rows.map(({ id, body, madeAt, madeBy }) => ({
    id,
    resource: JSON.parse(body) as ShopResource,
    madeAt,
    madeBy,
  }));
}

/** Keeps a resource. */
export function addShopResource(store: Store, resource: ShopResource, by: string, at: string): KeptResource {
  const { lastInsertRowid } = store.sqlite
    .prepare('INSERT INTO shop_resource (kind, body, made_at, made_by) VALUES (?, ?, ?, ?)')
    .run(resource.kind, JSON.stringify(resource), at, by);
  return { id: Number(lastInsertRowid), resource, madeAt: at, madeBy: by };
}

/** Ends a resource. @returns false when there is none of that number that stands */
export function endShopResource(store: Store, id: number, by: string, at: string): boolean {
  return (
    store.sqlite
      .prepare('UPDATE shop_resource SET ended_at = ?, ended_by = ? WHERE id = ? AND ended_at IS NULL')
      .run(at, by, id).changes === 1
  );
}

/** Changes when a resource or a shelf does, so that plans know that they are out of date. */
export function shopRecordStand(store: Store): string {
  const row = store.sqlite
    .prepare(
      `SELECT (SELECT count(*) FROM shop_resource) AS made,
       (SELECT count(*) FROM shop_resource WHERE ended_at IS NOT NULL) AS ended,
       (SELECT count(*) FROM stock_movement) AS moved`,
    )
    .get() as { made: number; ended: number; moved: number };
  return `${row.made}.${row.ended}.${row.moved}`;
}
