import type { FoundUnit } from '../../models/schema/unitEndpoints.ts';
import type { Store } from './openStore.ts';

/** Units in service on a day, by number; of several holders of a number the one that has it on the day. */
export function unitsInService(store: Store, asOf: string): FoundUnit[] {
  const rows = store.sqlite
    .prepare(
      `SELECT unit_number AS unitNumber, vin, description, site, engine_family AS engineFamily,
         disposed_on AS disposedOn, status
       FROM units WHERE (known_on IS NULL OR known_on <= @asOf) AND (in_service_on IS NULL OR in_service_on <= @asOf)
       ORDER BY coalesce(in_service_on, ''), id`,
    )
    .all({ asOf }) as (FoundUnit & { disposedOn: string | null; status: string | null })[];
  const newest = new Map(rows.map((row) => [row.unitNumber.toLowerCase(), row]));
  return [...newest.values()]
    .filter(({ disposedOn, status }) => (disposedOn === null || disposedOn > asOf) && status !== 'retired')
    .map(({ unitNumber, vin, description, site, engineFamily }) => ({
      unitNumber,
      vin,
      description,
      site,
      engineFamily,
    }));
}
