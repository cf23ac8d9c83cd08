import { rangeOf, type Range } from './range.ts';
import type { UnitOption } from './unitOption.ts';

/** What a list of chosen options comes to in each parameter draw. */
type OfDraw = (option: UnitOption) => Float64Array;

/** Sums by draw; an option with fewer draws than the others counts each of its own for as many of theirs. */
function sums(options: readonly UnitOption[], of: OfDraw, count: number): Float64Array {
  const total = new Float64Array(count);
  for (const option of options) {
    const values = of(option);
    for (let d = 0; d < count; d++) total[d]! += values[Math.floor((d * values.length) / count)]!;
  }
  return total;
}

const drawCount = (options: readonly UnitOption[], of: OfDraw): number =>
  options.reduce((most, option) => Math.max(most, of(option).length), 1);

/**
 * What a month's wait with all of these options costs: the sum over those for which waiting costs on average, draw by draw,
 * so that what all units share is not averaged away.
 * @param options one a unit
 * @returns cents, 80 % range over the draws; one unit → its own range, none → 0
 */
export function waitingOf(options: readonly UnitOption[]): Range {
  const counted = options.filter((option) => option.waitingMonthCents.mid > 0);
  const waiting: OfDraw = ({ byDraw }) => byDraw.waiting;
  return rangeOf(sums(counted, waiting, drawCount(counted, waiting)));
}

/**
 * What one plan saves more than another, draw by draw.
 * @param more options of the plan that costs more, one a unit
 * @param less options of the other
 * @returns cents, 80 % range over the draws; the same plan twice → 0
 */
export function savedMoreBy(more: readonly UnitOption[], less: readonly UnitOption[]): Range {
  const saving: OfDraw = ({ byDraw }) => byDraw.saving;
  const count = Math.max(drawCount(more, saving), drawCount(less, saving));
  const without = sums(less, saving, count);
  return rangeOf(sums(more, saving, count).map((value, d) => value - without[d]!));
}
