import { kindTable, type RecordKind } from './kinds.ts';
import type { FieldUnit } from './fields.ts';

/** One field of a kind as files and tables see it. */
export interface Column {
  /** field name in code, e.g. `odometerKm` */
  readonly field: string;
  /** column name in files and in the store, e.g. `odometer_km` */
  readonly name: string;
  readonly type: 'number' | 'money' | 'text' | 'date' | 'flag' | 'choice';
  readonly unit: FieldUnit | null;
  readonly required: boolean;
  readonly min: number | null;
  readonly max: number | null;
  readonly values: readonly string[] | null;
}

interface FieldMeta {
  type?: Column['type'];
  unit?: FieldUnit;
  column?: string;
  required?: boolean;
  min?: number;
  max?: number;
  values?: readonly string[];
}

/** `odometerKm` → `odometer_km`; `kv100Mm2S` → `kv100_mm2_s`. */
export function snakeCase(field: string): string {
  return field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

/**
 * The columns of a kind, in the order of its schema.
 * @example columnsOf('fuel')[3] → { field: 'fuelL', name: 'fuel_l', type: 'number', unit: 'L', … }
 */
export function columnsOf(kind: RecordKind): readonly Column[] {
  return Object.entries(kindTable[kind].schema.shape).map(([field, schema]) => {
    const meta = (schema.meta() ?? {}) as FieldMeta;
    if (meta.type === undefined) throw new Error(`${kind}.${field}: field must carry a type in its metadata`);
    return {
      field,
      name: meta.column ?? snakeCase(field),
      type: meta.type,
      unit: meta.unit ?? null,
      required: meta.required ?? false,
      min: meta.min ?? null,
      max: meta.max ?? null,
      values: meta.values ?? null,
    };
  });
}
