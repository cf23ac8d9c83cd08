import type { RecordKind } from '../schema/kinds.ts';
import type { ColumnEvidence } from './evidence.ts';
import { candidatesByContent, candidatesFor, type ColumnMatch } from './matchColumns.ts';
import type { ColumnAnswer } from './recognised.ts';
import type { Vocabulary } from './synonyms.ts';

/** Which column fills which field of one kind. */
export interface Assignment {
  readonly kind: RecordKind;
  /** one entry per column, null where it fills nothing */
  readonly matches: readonly (ColumnMatch | null)[];
  /** columns that claim the same field equally well, as positions */
  readonly ties: readonly { readonly field: string; readonly columns: readonly number[] }[];
}

interface TableLook {
  readonly headers: readonly string[];
  readonly evidence: readonly ColumnEvidence[];
}

/** Below this a name is no match. */
const leastConfidence = 0.5;

function toldMatches(
  look: TableLook,
  answers: Readonly<Record<string, ColumnAnswer>>,
): Map<number, ColumnMatch | null> {
  const told = new Map<number, ColumnMatch | null>();
  look.headers.forEach((header, at) => {
    const answer = answers[header];
    if (answer === undefined) return;
    const match = { at, unit: answer.unit ?? null, confidence: 1, why: 'as the column map says' };
    told.set(at, answer.field === null ? null : { ...match, field: answer.field });
  });
  return told;
}

/** Gives each column of a table the field of a kind that it fits best; each field is filled once. */
export function assignColumns(
  look: TableLook,
  kind: RecordKind,
  vocabulary: Vocabulary,
  answers: Readonly<Record<string, ColumnAnswer>> = {},
): Assignment {
  const matches: (ColumnMatch | null)[] = look.headers.map(() => null);
  const ties: { field: string; columns: number[] }[] = [];
  const taken = new Map<string, ColumnMatch>();
  const told = toldMatches(look, answers);
  for (const [at, match] of told) {
    matches[at] = match;
    if (match !== null) taken.set(match.field, match);
  }
  const place = (candidates: ColumnMatch[]) => {
    candidates.sort((a, b) => b.confidence - a.confidence || a.at - b.at);
    for (const match of candidates) {
      if (told.has(match.at) || matches[match.at] !== null || match.confidence < leastConfidence) continue;
      const holder = taken.get(match.field);
      if (holder === undefined) {
        matches[match.at] = match;
        taken.set(match.field, match);
      } else if (
        holder.confidence - match.confidence < 0.015 &&
        !told.has(holder.at) &&
        match.confidence >= 0.8
      ) {
        const tie = ties.find((each) => each.field === match.field);
        if (tie === undefined) ties.push({ field: match.field, columns: [holder.at, match.at] });
        else tie.columns.push(match.at);
      }
    }
  };
  const isBlank = (at: number) => look.evidence[at]?.filled === 0;
  const named: ColumnMatch[] = [];
  look.headers.forEach((header, at) => {
    if (header !== '') named.push(...candidatesFor(header, at, kind, vocabulary, look.evidence[at]));
  });
  place(named);
  const seen: ColumnMatch[] = [];
  look.headers.forEach((header, at) => {
    const evidence = look.evidence[at];
    if (matches[at] === null && evidence !== undefined)
      seen.push(...candidatesByContent(header, at, kind, vocabulary, evidence));
  });
  place(seen);
  return {
    kind,
    matches,
    // A column that turned out to fill another field, or holds nothing, ties with none.
    ties: ties
      .map(({ field, columns }) => ({
        field,
        columns: columns.filter(
          (at) => !isBlank(at) && (matches[at] === null || matches[at]?.field === field),
        ),
      }))
      .filter(({ columns }) => columns.length > 1),
  };
}
