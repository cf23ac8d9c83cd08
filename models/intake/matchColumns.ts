import type { Column } from '../schema/columns.ts';
import { kindTable, type RecordKind } from '../schema/kinds.ts';
import type { ColumnEvidence } from './evidence.ts';
import { editDistance, headerWords } from './headerWords.ts';
import type { Vocabulary } from './synonyms.ts';
import { unitFor } from './unitWords.ts';

/** A column of a file taken for a field of a kind. */
export interface ColumnMatch {
  readonly at: number;
  readonly field: string;
  /** unit of measure that the name says, as a unit's text; null when it says none */
  readonly unit: string | null;
  readonly confidence: number;
  readonly why: string;
}

interface NameParts {
  readonly exact: string;
  readonly words: readonly string[];
  readonly bareWords: readonly string[];
  readonly unitTexts: readonly string[];
}

const bracket = /[([]([^)\]]*)[)\]]/;

function partsOf(header: string, vocabulary: Vocabulary): NameParts {
  const inBrackets = bracket.exec(header)?.[1] ?? null;
  const bare = header.replace(bracket, ' ');
  const words = headerWords(header);
  const bareWords = headerWords(bare);
  const unitTexts = inBrackets === null ? [] : [inBrackets];
  for (const word of words) {
    const unit = vocabulary.source.unitWords[word];
    if (unit !== undefined) unitTexts.push(unit);
  }
  const last = words[words.length - 1];
  if (last !== undefined && words.length > 1) unitTexts.push(words.slice(-2).join(' '), last);
  if (/°\s?[cf]\b/i.test(header)) unitTexts.unshift(/°\s?f\b/i.test(header) ? '°F' : '°C');
  return {
    exact: header
      .trim()
      .toLowerCase()
      .replace(/[\s-]+/g, '_'),
    words,
    bareWords,
    unitTexts,
  };
}

function unitOf(parts: NameParts, column: Column): string | null {
  if (column.unit === null || column.type !== 'number') return null;
  for (const text of parts.unitTexts) {
    const unit = unitFor(text, column.unit);
    if (unit !== null) return unit.name;
  }
  return null;
}

/** False when the cells cannot be what the field holds. */
export function contentFits(column: Column, evidence: ColumnEvidence | undefined): boolean {
  if (evidence === undefined || evidence.filled === 0) return true;
  const share = (count: number) => count / evidence.filled;
  if (column.type === 'number' || column.type === 'money')
    return share(evidence.numbers) >= 0.5 || (column.field === 'phasers' && share(evidence.flags) >= 0.5);
  if (column.type === 'date') return share(evidence.dates) >= 0.5;
  if (column.type === 'flag') return share(evidence.flags) >= 0.5;
  if (['work', 'note', 'shop', 'fuel', 'description', 'oilGrade', 'oilCategory'].includes(column.field))
    return share(evidence.numbers) < 0.8 || (column.field === 'oilGrade' && share(evidence.grades) >= 0.5);
  if (column.field === 'code') return share(evidence.codes) >= 0.3;
  return true;
}

function fuzzyFields(parts: NameParts, kind: RecordKind, vocabulary: Vocabulary): [string, number, string][] {
  const found: [string, number, string][] = [];
  const name = parts.bareWords.join('');
  if (name.length >= 5)
    for (const [key, fields] of vocabulary.compact.get(kind) ?? []) {
      const limit =
        Math.min(name.length, key.length) >= 10 ? 2 : Math.min(name.length, key.length) >= 5 ? 1 : 0;
      if (limit === 0 || key.length < 5 || editDistance(name, key, limit) > limit) continue;
      for (const field of fields) found.push([field, 0.8, `the name is nearly “${key}”`]);
    }
  const isOther = parts.words.some((word) => vocabulary.others.has(word));
  if (found.length > 0 || isOther) return isOther ? [] : found;
  const rest = parts.words.filter((word) => !vocabulary.fillers.has(word));
  for (const { field, words } of vocabulary.phrases.get(kind) ?? []) {
    const core = words.filter((word) => !vocabulary.plainFillers.has(word));
    if (core.length === 0 || !core.every((word) => rest.includes(word) || parts.words.includes(word)))
      continue;
    const surplus = rest.length - core.length;
    if (surplus > 2 || (core.length === 1 && surplus > 1) || (core[0] ?? '').length < 3) continue;
    found.push([field, 0.75 - 0.08 * surplus, `the name contains “${words.join(' ')}”`]);
  }
  return found;
}

/** All fields of a kind that a column could be, best first. */
export function candidatesFor(
  header: string,
  at: number,
  kind: RecordKind,
  vocabulary: Vocabulary,
  evidence: ColumnEvidence | undefined,
): ColumnMatch[] {
  const parts = partsOf(header, vocabulary);
  const columns = vocabulary.columns.get(kind);
  const found: ColumnMatch[] = [];
  const add = (field: string, sure: number, why: string, unit?: string | null) => {
    const column = columns?.get(field);
    if (column === undefined || found.some((match) => match.field === field)) return;
    const fits = contentFits(column, evidence);
    // The own layout's name is believed even when most cells are unreadable, unless a better field is found.
    if (!fits && sure < 0.98) return;
    found.push({
      at,
      field,
      confidence: fits ? sure : 0.5,
      why: fits ? why : `${why}, though most cells do not look like it`,
      unit: unit === undefined ? unitOf(parts, column) : unit,
    });
  };
  const own = vocabulary.own.get(kind)?.get(parts.exact);
  if (own !== undefined) add(own.field, 1, 'named as in our empty tables', own.unit);
  const spoken = vocabulary.own.get(kind)?.get(parts.words.join('_'));
  if (spoken !== undefined) add(spoken.field, 0.98, 'named as in our empty tables, in words', spoken.unit);
  const compact = vocabulary.compact.get(kind);
  const withoutUnit = parts.words.filter(
    (word, index) => index === 0 || vocabulary.source.unitWords[word] === undefined,
  );
  for (const words of [parts.words, parts.bareWords, withoutUnit])
    for (const field of compact?.get(words.join('')) ?? [])
      add(
        field,
        vocabulary.weak.has(words.join('')) ? 0.88 : 0.95,
        `“${words.join(' ')}” is a usual name of it`,
      );
  const unfilled = withoutUnit.filter((word) => !vocabulary.fillers.has(word)).join('');
  if (unfilled !== '' && !parts.words.some((word) => vocabulary.others.has(word)))
    for (const field of compact?.get(unfilled) ?? []) add(field, 0.85, `“${unfilled}” is a usual name of it`);
  if (found.length === 0)
    for (const [field, confidence, why] of fuzzyFields(parts, kind, vocabulary).sort((a, b) => b[1] - a[1]))
      add(field, confidence, why);
  return found.sort((a, b) => b.confidence - a.confidence);
}

/**
 * Columns told by their cells: a VIN, a grade, a fault code, the only date; litres and quarts of a service under a name
 * that says no more than “amount”.
 */
export function candidatesByContent(
  header: string,
  at: number,
  kind: RecordKind,
  vocabulary: Vocabulary,
  evidence: ColumnEvidence,
): ColumnMatch[] {
  if (evidence.filled < 3) return [];
  const columns = vocabulary.columns.get(kind);
  const share = (count: number) => count / evidence.filled;
  const found: ColumnMatch[] = [];
  const add = (field: string, confidence: number, why: string) => {
    if (columns?.has(field) === true) found.push({ at, field, unit: null, confidence, why });
  };
  if (share(evidence.vins) >= 0.8) add('vin', 0.9, 'the cells look like vehicle identification numbers');
  if (share(evidence.grades) >= 0.8) add('oilGrade', 0.85, 'the cells look like oil grades');
  if (share(evidence.codes) >= 0.8) add('code', 0.9, 'the cells look like fault codes');
  let volumes = 0;
  for (const [unit, count] of evidence.units) if (unitFor(unit, 'L') !== null) volumes += count;
  const isAmount = vocabulary.source.amounts.includes(headerWords(header).join(' '));
  if (
    kind === 'service' &&
    isAmount &&
    share(volumes) >= 0.6 &&
    evidence.max <= (columns?.get('oilL')?.max ?? Infinity)
  )
    add('oilL', 0.8, 'the cells look like litres or quarts');
  const { dateField } = kindTable[kind];
  if (share(evidence.dates) >= 0.9 && share(evidence.numbers) < 0.9 && dateField !== null && kind !== 'units')
    add(dateField, 0.6, 'the cells look like dates');
  return found;
}
