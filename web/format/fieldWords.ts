import { columnsOf, snakeCase, type Column } from '../../models/schema/columns.ts';
import type { RecordKind } from '../../models/schema/kinds.ts';

/** Kinds of records as people read them. */
export const kindWords: Readonly<Record<RecordKind, string>> = {
  engines: 'engine families',
  sites: 'sites',
  units: 'units',
  technicians: 'technicians',
  stock: 'parts on the shelf',
  readings: 'meter readings',
  fuel: 'fuel fills',
  service: 'service history',
  samples: 'oil samples',
  findings: 'findings',
  codes: 'fault codes',
  blackouts: 'days when a unit is not spared',
};

/** A kind's words, or the text itself where it is none. */
export function kindName(kind: string): string {
  return kindWords[kind as RecordKind] ?? kind;
}

/** A name without the unit of measure at its end: the unit stands beside it, and it is the reader's. */
const bare = (name: string): string =>
  name.replace(/_(?:km|h|l|c|mm2_s|mg_koh_g|a_cm|ppm|mm)$/, '').replaceAll('_', ' ');

/** A field as people read it: `odometer_km` → "odometer". */
export const columnWords = ({ name, unit }: Pick<Column, 'name' | 'unit'>): string =>
  name === 'fuel_l' ? 'fuel amount' : unit === null ? name.replaceAll('_', ' ') : bare(name);

/** The same by the field's name in code, for a kind that is known or not. */
export function fieldWords(kind: string, field: string): string {
  const column =
    kind in kindWords ? columnsOf(kind as RecordKind).find((each) => each.field === field) : undefined;
  return column === undefined ? snakeCase(field).replaceAll('_', ' ') : columnWords(column);
}
