import { columnSynonyms, vocabularyOf, type Vocabulary } from '../models/intake/synonyms.ts';
import synonyms from '../data/catalog/column-synonyms.json';

let made: Vocabulary | null = null;

/** The catalog of column names, made ready once. */
export function vocabulary(): Vocabulary {
  made ??= vocabularyOf(columnSynonyms.parse(synonyms));
  return made;
}
