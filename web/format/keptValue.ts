import { findingWords } from '../../models/assessment/findingWords.ts';
import type { FieldUnit } from '../../models/schema/fields.ts';
import { columnsOf } from '../../models/schema/columns.ts';
import type { FindingKind } from '../../models/schema/finding.ts';
import { recordKinds } from '../../models/schema/kinds.ts';
import type { Settings } from '../../models/schema/settings.ts';
import { date } from './dates.ts';
import { distance, hours, percent, plain, temperature, volume } from './measures.ts';
import { modelWords } from './modelWords.ts';
import { money } from './money.ts';

type Reader = Pick<Settings, 'measures' | 'currency'>;

function quantity(value: number, unit: FieldUnit | null, { measures, currency }: Reader): string {
  if (unit === 'cents') return money(value, currency);
  if (unit === 'km') return distance(value, measures);
  if (unit === 'L') return volume(value, measures);
  if (unit === '°C') return temperature(value, measures);
  if (unit === 'h') return hours(value);
  if (unit === 'share') return percent(value);
  return unit === null || unit === '1' || unit === 'count' ? plain(value, 2) : `${plain(value, 2)} ${unit}`;
}

/** A finding and its value, each in words: "hot idle pressure", "22 psi". */
function findingPart(row: Readonly<Record<string, unknown>>, part: 0 | 1, reader: Reader): string {
  const value = typeof row.value === 'string' ? row.value : null;
  const words = modelWords(findingWords(row.finding as FindingKind, value), reader.measures);
  const at = words.indexOf(': ');
  return part === 0 ? words.slice(0, at) : value === null ? '' : words.slice(at + 2);
}

/** A value of a record as it will be kept, in the reader's measures and words; '' for none. */
export function keptValue(
  kind: string,
  field: string,
  row: Readonly<Record<string, unknown>>,
  reader: Reader,
): string {
  const value = row[field];
  if (value === null || value === undefined) return '';
  if (kind === 'findings' && typeof row.finding === 'string' && (field === 'finding' || field === 'value'))
    return findingPart(row, field === 'finding' ? 0 : 1, reader);
  const known = recordKinds.find((each) => each === kind);
  const column = known === undefined ? undefined : columnsOf(known).find((each) => each.field === field);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return quantity(value, column?.unit ?? null, reader);
  if (typeof value !== 'string') return JSON.stringify(value);
  if (column?.type === 'date') return date(value);
  return column?.type === 'choice' ? value.replaceAll('_', ' ') : value;
}
