import { isGrade } from './gradeText.ts';
import { isCurrency, readNumber, saysNothing } from './numberText.ts';
import { dateShape } from './dateText.ts';
import { looksLikeVin } from './vin.ts';
import { readFlag } from './flagText.ts';
import { unitKey } from './unitWords.ts';

/** What the cells of one column look like, gathered while rows stream past. */
export interface ColumnEvidence {
  filled: number;
  numbers: number;
  dates: number;
  flags: number;
  vins: number;
  grades: number;
  codes: number;
  /** dates of three numbers that are no day when read in that order */
  notDmy: number;
  notMdy: number;
  notYmd: number;
  /** dates of three numbers that read as different days in different orders */
  openDates: number;
  dottedDates: number;
  /** numbers that prove which mark is the decimal mark */
  point: number;
  comma: number;
  /** numbers whose only mark could be either: `12.345`, `12,345` */
  openPoint: number;
  openComma: number;
  /** bounds of what the open numbers are when their mark is a decimal mark */
  openMin: number;
  openMax: number;
  max: number;
  min: number;
  /** units of measure beside the numbers, and how often */
  readonly units: Map<string, number>;
  readonly currencies: Set<string>;
  /** a few distinct cells, to show */
  readonly examples: string[];
  /** nothing more can be learned from this column */
  settled: boolean;
}

const emptyEvidence = (): ColumnEvidence => ({
  ...{ filled: 0, numbers: 0, dates: 0, flags: 0, vins: 0, grades: 0, codes: 0 },
  ...{ notDmy: 0, notMdy: 0, notYmd: 0, openDates: 0, dottedDates: 0 },
  ...{ point: 0, comma: 0, openPoint: 0, openComma: 0, openMin: Infinity, openMax: -Infinity },
  ...{ max: -Infinity, min: Infinity, settled: false },
  units: new Map(),
  currencies: new Set(),
  examples: [],
});

const codeLook = /^[PBCU][0-3][0-9A-F]{3}(-[0-9A-F]{2})?$/i;
const bothValid = (a: number, b: number) => a >= 1 && a <= 12 && b >= 1 && b <= 12;

function lookAtDate(cell: string, evidence: ColumnEvidence): void {
  const shape = dateShape(cell);
  if (shape === null) return;
  evidence.dates += 1;
  if (shape.as !== 'parts') return;
  const { first, second, third, short, dotted } = shape;
  if (dotted) evidence.dottedDates += 1;
  if (first > 31 || second > 12) evidence.notDmy += 1;
  if (first > 12 || second > 31) evidence.notMdy += 1;
  if (!short || second > 12 || third > 31 || third === 0) evidence.notYmd += 1;
  if (bothValid(first, second) && first !== second) evidence.openDates += 1;
}

function lookAtMark(cell: string, evidence: ColumnEvidence): void {
  const digits = /\d[\d.,]*/.exec(cell)?.[0].replace(/[.,]$/, '') ?? '';
  const dots = digits.split('.').length - 1;
  const commas = digits.split(',').length - 1;
  if (dots + commas === 0) return;
  if (dots > 0 && commas > 0) {
    if (digits.lastIndexOf('.') > digits.lastIndexOf(',')) evidence.point += 1;
    else evidence.comma += 1;
  } else if (dots + commas > 1) {
    if (dots > 0) evidence.comma += 1;
    else evidence.point += 1;
  } else if (/^[1-9]\d{0,2}[.,]\d{3}$/.test(digits)) {
    const asDecimal = Number(digits.replace(',', '.'));
    evidence.openMin = Math.min(evidence.openMin, asDecimal);
    evidence.openMax = Math.max(evidence.openMax, asDecimal);
    if (dots > 0) evidence.openPoint += 1;
    else evidence.openComma += 1;
  } else if (dots > 0) evidence.point += 1;
  else evidence.comma += 1;
}

function lookAtNumber(cell: string, evidence: ColumnEvidence): void {
  const read = readNumber(cell, '.');
  if (typeof read === 'string') return;
  evidence.numbers += 1;
  if (read.value > evidence.max) evidence.max = read.value;
  if (read.value < evidence.min) evidence.min = read.value;
  lookAtMark(cell, evidence);
  if (read.unit === '') return;
  if (isCurrency(read.unit)) evidence.currencies.add(read.unit.toUpperCase());
  else evidence.units.set(unitKey(read.unit), (evidence.units.get(unitKey(read.unit)) ?? 0) + 1);
}

function look(cell: string, evidence: ColumnEvidence): void {
  evidence.filled += 1;
  lookAtNumber(cell, evidence);
  lookAtDate(cell, evidence);
  if (readFlag(cell) !== null) evidence.flags += 1;
  if (cell.length === 17 && looksLikeVin(cell)) evidence.vins += 1;
  if (isGrade(cell)) evidence.grades += 1;
  if (codeLook.test(cell)) evidence.codes += 1;
  if (evidence.examples.length < 5 && !evidence.examples.includes(cell)) evidence.examples.push(cell);
}

/** After so many cells a column is looked at further only for what is still open in it. */
const fullLook = 1500;

/** What is still open: which comes first, day or month; which mark is the decimal mark. */
function isOpen(evidence: ColumnEvidence): boolean {
  const dateOpen = evidence.openDates > 0 && (evidence.notDmy === 0) === (evidence.notMdy === 0);
  const markOpen = evidence.openPoint + evidence.openComma > 0 && evidence.point + evidence.comma === 0;
  return dateOpen || markOpen || evidence.filled < 20;
}

export interface EvidenceGatherer {
  /** takes in more rows; cells must be trimmed */
  observe(rows: readonly (readonly string[])[]): void;
  readonly columns: readonly ColumnEvidence[];
}

/** Starts gathering for a table of so many columns; may be fed the whole file, cheap once a column is settled. */
export function gatherEvidence(width: number): EvidenceGatherer {
  const columns = Array.from({ length: width }, emptyEvidence);
  let seen = 0;
  return {
    columns,
    observe(rows) {
      for (const cells of rows) {
        seen += 1;
        for (let at = 0; at < width; at += 1) {
          const evidence = columns[at];
          const cell = cells[at];
          if (evidence === undefined || evidence.settled || cell === undefined || saysNothing(cell)) continue;
          look(cell, evidence);
        }
        if (seen % 500 === 0 && seen >= fullLook)
          for (const evidence of columns) if (!isOpen(evidence)) evidence.settled = true;
      }
    },
  };
}
