import type { Column } from '../schema/columns.ts';
import type { RecordKind } from '../schema/kinds.ts';
import type { ColumnEvidence } from './evidence.ts';
import type { Question } from './recognised.ts';

const shown = (evidence: ColumnEvidence | undefined) => (evidence?.examples ?? []).slice(0, 3).join(', ');

export function kindQuestion(choices: readonly RecordKind[]): Question {
  return {
    code: 'kind_unclear',
    column: null,
    field: null,
    question: 'What kind of records does this table hold?',
    choices,
    answers: 'kind',
  };
}

export function missingQuestion(fields: readonly Column[], freeHeaders: readonly string[]): Question {
  const names = fields.map(({ name }) => name.replaceAll('_', ' ')).join(' or ');
  const [first] = fields;
  return {
    code: 'column_missing',
    column: null,
    field: first?.field ?? null,
    question: `No column was found for ${names}. Which column is it?`,
    choices: freeHeaders,
    answers: 'columns',
  };
}

export function tieQuestion(column: Column, headers: readonly string[]): Question {
  return {
    code: 'two_columns_one_field',
    column: headers[0] ?? null,
    field: column.field,
    question: `${headers.map((header) => `"${header}"`).join(' and ')} could each be ${column.name.replaceAll('_', ' ')}. Which one is it?`,
    choices: headers,
    answers: 'columns',
  };
}

export function dateQuestion(
  header: string,
  field: string,
  evidence: ColumnEvidence | undefined,
  isMixed: boolean,
): Question {
  return {
    code: isMixed ? 'date_order_mixed' : 'date_order',
    column: header,
    field,
    question: isMixed
      ? `Some dates of "${header}" can only have the day first, others only the month (${shown(evidence)}). Which comes first in most?`
      : `Every date of "${header}" reads both ways (${shown(evidence)}). Does the day or the month come first?`,
    choices: ['dmy', 'mdy'],
    answers: 'dateOrder',
  };
}

export function markQuestion(header: string, field: string, evidence: ColumnEvidence | undefined): Question {
  return {
    code: 'decimal_mark',
    column: header,
    field,
    question: `The numbers of "${header}" read both ways (${shown(evidence)}). Which mark is the decimal mark?`,
    choices: ['.', ','],
    answers: 'decimal',
  };
}

const unitQuestions = {
  km: { code: 'distance_unit', choices: ['km', 'mi'], words: 'kilometers or miles' },
  L: { code: 'volume_unit', choices: ['L', 'gal', 'qt'], words: 'liters, gallons or quarts' },
  '°C': { code: 'temperature_unit', choices: ['°C', '°F'], words: '°C or °F' },
} as const;

/** Asks for the unit of a column; null where only one unit is in use. */
export function unitQuestion(
  header: string,
  column: Column,
  evidence: ColumnEvidence | undefined,
): Question | null {
  if (column.unit !== 'km' && column.unit !== 'L' && column.unit !== '°C') return null;
  const { code, choices, words } = unitQuestions[column.unit];
  return {
    code,
    column: header,
    field: column.field,
    question: `"${header}" names no unit of measure (${shown(evidence)}). Is it in ${words}?`,
    choices,
    answers: 'unit',
  };
}

export function currencyQuestion(header: string, field: string, evidence: ColumnEvidence): Question {
  return {
    code: 'currency_mixed',
    column: header,
    field,
    question: `"${header}" holds amounts in several currencies (${[...evidence.currencies].join(', ')}). Convert them to one and send the file again, or leave the column out.`,
    choices: ['leave out'],
    answers: 'columns',
  };
}
