import { z } from 'zod';
import { columnsOf, type Column } from '../schema/columns.ts';
import { kindTable, recordKinds, type RecordKind } from '../schema/kinds.ts';
import { headerWords } from './headerWords.ts';

/** The catalog of names that columns and words go by in other people's files. */
export const columnSynonyms = z.object({
  title: z.string(),
  source: z.string(),
  /** field, or `kind.field`, to the names it goes by; `date` stands for the dating field of any kind */
  fields: z.record(z.string(), z.array(z.string())),
  /** words in a name that carry a unit of measure: `kilometerstand` is in km */
  unitWords: z.record(z.string(), z.string()),
  /** names that yield to a better one in the same file: a plate number beside a unit number */
  weak: z.array(z.string()),
  /** names of an amount of whatever the row is about; the cells tell of what */
  amounts: z.array(z.string()),
  /** words that change nothing: current, reading … */
  fillers: z.array(z.string()),
  /** words that make it another thing: next, due, target … */
  others: z.array(z.string()),
  /** kind to words in the names of files */
  kinds: z.record(z.string(), z.array(z.string())),
  /** field to own word to the words it goes by */
  choices: z.record(z.string(), z.record(z.string(), z.array(z.string()))),
});
export type ColumnSynonyms = z.infer<typeof columnSynonyms>;

export interface Synonym {
  readonly field: string;
  readonly words: readonly string[];
}

/** The catalog made ready for look-up. */
export interface Vocabulary {
  readonly source: ColumnSynonyms;
  /** per kind: own column names with their twins in US measures, to field and the unit that the name says */
  readonly own: ReadonlyMap<RecordKind, ReadonlyMap<string, { field: string; unit: string | null }>>;
  /** per kind: names without blanks, to fields */
  readonly compact: ReadonlyMap<RecordKind, ReadonlyMap<string, readonly string[]>>;
  /** per kind: names as words */
  readonly phrases: ReadonlyMap<RecordKind, readonly Synonym[]>;
  readonly columns: ReadonlyMap<RecordKind, ReadonlyMap<string, Column>>;
  readonly weak: ReadonlySet<string>;
  readonly fillers: ReadonlySet<string>;
  /** the single words among them: a known name keeps the words of the longer ones, as "in service odometer" must */
  readonly plainFillers: ReadonlySet<string>;
  readonly others: ReadonlySet<string>;
}

const twins: readonly (readonly [suffix: string, unit: string, twin: string, twinUnit: string])[] = [
  ['_km', 'km', '_mi', 'mi'],
  ['_l', 'L', '_qt', 'qt'],
  ['_l', 'L', '_gal', 'gal'],
  ['_c', '°C', '_f', '°F'],
];

function ownNames(columns: readonly Column[]): Map<string, { field: string; unit: string | null }> {
  const names = new Map<string, { field: string; unit: string | null }>();
  for (const { name, field, unit, type } of columns) {
    names.set(name, { field, unit: unit === 'cents' || unit === 'count' ? null : unit });
    if (type !== 'number') continue;
    for (const [suffix, of, twin, twinUnit] of twins)
      if (unit === of && name.endsWith(suffix))
        names.set(name.slice(0, -suffix.length) + twin, { field, unit: twinUnit });
  }
  return names;
}

/** Makes the catalog ready; done once. */
export function vocabularyOf(source: ColumnSynonyms): Vocabulary {
  const own = new Map<RecordKind, ReadonlyMap<string, { field: string; unit: string | null }>>();
  const compact = new Map<RecordKind, Map<string, string[]>>();
  const phrases = new Map<RecordKind, Synonym[]>();
  const columns = new Map<RecordKind, ReadonlyMap<string, Column>>();
  for (const kind of recordKinds) {
    const list = columnsOf(kind);
    columns.set(kind, new Map(list.map((column) => [column.field, column])));
    own.set(kind, ownNames(list));
    const names = new Map<string, string[]>();
    const words: Synonym[] = [];
    for (const { field, name } of list) {
      const dating = field === kindTable[kind].dateField && kind !== 'units';
      const entries = [
        ...(source.fields[`${kind}.${field}`] ?? []),
        ...(source.fields[field] ?? []),
        ...(dating ? (source.fields['date'] ?? []) : []),
        name.replace(/_/g, ' '),
      ];
      for (const entry of entries) {
        const phrase = headerWords(entry);
        const key = phrase.join('');
        const fields = names.get(key) ?? [];
        if (!fields.includes(field)) names.set(key, [...fields, field]);
        words.push({ field, words: phrase });
      }
    }
    compact.set(kind, names);
    phrases.set(kind, words);
  }
  return {
    source,
    own,
    compact,
    phrases,
    columns,
    weak: new Set(
      [...source.weak, ...(source.fields['date'] ?? [])].map((name) => headerWords(name).join('')),
    ),
    fillers: new Set(source.fillers.flatMap(headerWords)),
    plainFillers: new Set(
      source.fillers.flatMap(headerWords).filter((word) => source.fillers.includes(word)),
    ),
    others: new Set(source.others.flatMap(headerWords)),
  };
}
