import type { Column } from '../schema/columns.ts';
import type { DateOrder } from './dateText.ts';
import type { ColumnEvidence } from './evidence.ts';
import type { DecimalMark } from './numberText.ts';

/** Orders of day and month that every date of a column allows. */
function ordersOf(evidence: ColumnEvidence): DateOrder[] {
  const orders: DateOrder[] = [];
  if (evidence.notDmy === 0) orders.push('dmy');
  // Points between the parts are only written where the day comes first.
  if (evidence.notMdy === 0 && evidence.dottedDates === 0) orders.push('mdy');
  if (orders.length === 0 && evidence.notYmd === 0) orders.push('ymd');
  return orders;
}

const isPlain = (evidence: ColumnEvidence) =>
  evidence.openDates === 0 && evidence.notDmy === 0 && evidence.notMdy === 0;

/** What the date columns of a file settle: one order, an open question, or a contradiction. */
export type DateDecision = DateOrder | 'open' | 'mixed' | null;

/** The order of one date column; null when its dates read the same in any order. */
export function dateOrderOf(evidence: ColumnEvidence): DateDecision {
  if (isPlain(evidence)) return null;
  const orders = ordersOf(evidence);
  const [first] = orders;
  if (first === undefined) return 'mixed';
  return orders.length > 1 ? 'open' : first;
}

/** Settles open columns by the others of the file, when those agree. */
export function settleDates(decisions: readonly DateDecision[]): DateDecision[] {
  const known = new Set(decisions.filter((each) => each === 'dmy' || each === 'mdy' || each === 'ymd'));
  const [only] = known;
  return decisions.map((each) => (each === 'open' && known.size === 1 && only !== undefined ? only : each));
}

/** What the numbers of a column settle about the decimal mark; null when any mark reads the same. */
export type MarkDecision = DecimalMark | 'open' | 'mixed' | null;

/** Meters run in whole units, so three digits behind a mark are thousands there. */
const wholeMeters = new Set([
  'odometerKm',
  'inServiceOdometerKm',
  'acquiredOdometerKm',
  'warrantyUntilKm',
  'oilKm',
]);

/** The decimal mark of one column. */
export function decimalMarkOf(evidence: ColumnEvidence, column: Column): MarkDecision {
  if (evidence.point > 0 && evidence.comma > 0)
    return evidence.openPoint + evidence.openComma > 0 ? 'mixed' : null;
  if (evidence.point > 0) return '.';
  if (evidence.comma > 0) return ',';
  if (evidence.openPoint + evidence.openComma === 0) return null;
  if (evidence.openPoint > 0 && evidence.openComma > 0) return 'mixed';
  const asDecimal: DecimalMark = evidence.openPoint > 0 ? '.' : ',';
  const asThousands: DecimalMark = asDecimal === '.' ? ',' : '.';
  // Only one reading may lie within what the field can hold.
  const fits = (low: number, high: number) =>
    (column.min === null || low >= column.min) && (column.max === null || high <= column.max);
  const decimalFits = fits(evidence.openMin, evidence.openMax);
  const thousandsFits = fits(evidence.openMin * 1000, evidence.openMax * 1000);
  if (decimalFits && !thousandsFits) return asDecimal;
  if (thousandsFits && !decimalFits) return asThousands;
  return wholeMeters.has(column.field) ? asThousands : 'open';
}

/** The mark that the columns of a file agree on, or null. */
export function markOfFile(decisions: readonly MarkDecision[]): DecimalMark | null {
  const known = new Set(decisions.filter((each) => each === '.' || each === ','));
  const [only] = known;
  return known.size === 1 && (only === '.' || only === ',') ? only : null;
}
