import type { Code } from '../../models/schema/code.ts';
import { columnsOf } from '../../models/schema/columns.ts';
import type { Engine } from '../../models/schema/engine.ts';
import type { Finding } from '../../models/schema/finding.ts';
import type { FuelFill } from '../../models/schema/fuelFill.ts';
import { recordKinds, type RecordKind } from '../../models/schema/kinds.ts';
import type { Reading } from '../../models/schema/reading.ts';
import type { Sample } from '../../models/schema/sample.ts';
import type { Service, WorkKind } from '../../models/schema/service.ts';
import type { Blackout, Stock, Technician } from '../../models/schema/shopResources.ts';
import type { Site } from '../../models/schema/site.ts';
import type { Unit } from '../../models/schema/unit.ts';

/** A service row with what its words were written for; the file carries the words alone. */
export type ServiceRow = Partial<Service> & { readonly works: readonly WorkKind[] };

/** Rows by kind before they become text; a missing field is not known. */
export interface FleetRows {
  engines: Partial<Engine>[];
  sites: Partial<Site>[];
  units: Partial<Unit>[];
  technicians: Partial<Technician>[];
  stock: Partial<Stock>[];
  readings: Partial<Reading>[];
  fuel: Partial<FuelFill>[];
  service: ServiceRow[];
  samples: Partial<Sample>[];
  findings: Partial<Finding>[];
  codes: Partial<Code>[];
  blackouts: Partial<Blackout>[];
}

export function noRows(): FleetRows {
  return Object.fromEntries(recordKinds.map((kind) => [kind, []])) as unknown as FleetRows;
}

type Cell = string | number | boolean | null | undefined;

/** How a US twin of a column is named and counted. */
const twins: readonly (readonly [RegExp, string, (value: number) => number])[] = [
  [/_km$/, '_mi', (km) => Math.round(km / 1.609344)],
  [/_l$/, '_qt', (l) => Math.round((100 * l) / 0.946352946) / 100],
  [/_c$/, '_f', (c) => Math.round(c * 1.8 + 32)],
];

/**
 * A file in the own layout. Columns that no row fills are left out, apart from those that every row needs.
 * @param us true: headers and values in miles, quarts and degrees Fahrenheit
 */
export function csvOf(kind: RecordKind, rows: readonly object[], us = false): string {
  const columns = columnsOf(kind).filter(
    (column) => column.required || rows.some((row) => (cellOf(row, column.field) ?? null) !== null),
  );
  const header = columns.map((column) => {
    const twin = us ? twins.find(([pattern]) => pattern.test(column.name)) : undefined;
    return twin ? column.name.replace(twin[0], twin[1]) : column.name;
  });
  const lines = rows.map((row) =>
    columns
      .map((column) => {
        const value = cellOf(row, column.field) ?? null;
        if (value === null) return '';
        if (column.type === 'money') return quoted((Number(value) / 100).toFixed(2));
        if (typeof value === 'boolean') return value ? 'yes' : 'no';
        const twin = us && typeof value === 'number' ? twins.find(([p]) => p.test(column.name)) : undefined;
        return quoted(String(twin ? twin[2](value as number) : value));
      })
      .join(','),
  );
  return [header.join(','), ...lines].join('\n') + '\n';
}

function cellOf(row: object, field: string): Cell {
  return (row as Record<string, Cell>)[field];
}

function quoted(text: string): string {
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
