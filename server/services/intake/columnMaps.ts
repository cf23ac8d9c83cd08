import type { ColumnMap } from '../../../models/intake/columnMap.ts';
import { layoutSignature } from '../../../models/intake/layoutSignature.ts';
import type { KeptColumnMap } from '../../../models/schema/columnMapEndpoints.ts';
import { recordKinds, type RecordKind } from '../../../models/schema/kinds.ts';
import type { KnownColumns, ReadyTable } from './openFiles.ts';

/** By file or file#sheet, by header: what a column means. */
export type Corrections = Readonly<Record<string, KeptColumnMap['columns']>>;

export interface ColumnOptions {
  readonly kind?: RecordKind | undefined;
  /** by file or file#sheet: the kind of its records */
  readonly kinds?: Readonly<Record<string, RecordKind>> | undefined;
  readonly map?: ColumnMap | undefined;
  readonly corrections?: Corrections | undefined;
  readonly keepAs?: Readonly<Record<string, string>> | undefined;
}

type Kept = ReadonlyMap<string, KeptColumnMap>;

/** A map given as a file wins whole; else the map kept for the layout holds, with corrections on top of it. */
export function knownColumns(
  kept: Kept,
  options: ColumnOptions,
): (table: string, headers: readonly string[]) => KnownColumns {
  return (table, headers) => {
    const told = options.kinds?.[table];
    if (options.map !== undefined)
      return { options: told === undefined ? {} : { kind: told }, columnsBy: null };
    const corrections = options.corrections?.[table] ?? {};
    const found = kept.get(layoutSignature(headers));
    if (found === undefined)
      return {
        options: { columns: corrections, ...(told !== undefined && { kind: told }) },
        columnsBy: null,
      };
    return {
      options: {
        kind: told ?? options.kind ?? recordKinds.find((kind) => kind === found.kind),
        columns: { ...found.columns, ...corrections },
      },
      columnsBy: found.name,
    };
  };
}

/** The map to keep of a table whose columns were corrected and named, with units and date orders as they were settled. */
export function correctedMap(
  table: ReadyTable,
  kept: Kept,
  options: ColumnOptions & { readonly by: string },
  at: string,
): KeptColumnMap | null {
  const label = table.sheet === null ? table.file : `${table.file}#${table.sheet}`;
  const name = options.keepAs?.[label];
  const headers = table.table.columns;
  const told = {
    ...kept.get(layoutSignature(headers))?.columns,
    ...options.corrections?.[label],
  };
  const { kind, columns } = table.recognised;
  if (name === undefined || kind === null || Object.keys(told).length === 0) return null;
  return {
    name,
    kind,
    headers: [...headers],
    columns: Object.fromEntries(
      columns.flatMap(({ header, field, unit, dateOrder }) => {
        if (!Object.hasOwn(told, header)) return [];
        const decimal = told[header]?.decimal;
        return [
          [
            header,
            {
              field,
              unit,
              ...(dateOrder !== null && { dateOrder }),
              ...(decimal !== undefined && { decimal }),
            },
          ],
        ];
      }),
    ),
    madeAt: at,
    madeBy: options.by,
  };
}
