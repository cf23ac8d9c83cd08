import type { GoverningLimit } from '../schema/assessment.ts';
import type { Amounts, Measure } from './amounts.ts';
import { addAmounts, timesAmounts } from './amounts.ts';

/** One limit on the way: where it falls since the change and from now, by the measure that it runs down in. */
export interface IntervalLine {
  readonly limit: GoverningLimit;
  readonly measure: Measure;
  readonly at: Amounts;
  readonly left: Amounts;
  readonly words: string;
}

/**
 * Where a limit stands since the change: so far plus what is left; when it is passed, the past in proportion.
 * @param scaled the limit in its own measure, from the change on
 */
export function sinceChange(so: Amounts, left: Amounts, measure: Measure, scaled: number): Amounts {
  if (left[measure] > 0 || so[measure] <= 0) return addAmounts(so, left);
  return timesAmounts(so, scaled / so[measure]);
}

/** Days since the change at which a limit falls: the order of limits in time. */
export function daysAt(line: IntervalLine, so: Amounts): number {
  return line.left.days > 0 ? so.days + line.left.days : line.at.days;
}

/** Share of a limit used up so far, in its own measure; above 1 = past. */
export function usedShare(line: IntervalLine, so: Amounts): number {
  return line.at[line.measure] > 0 ? so[line.measure] / line.at[line.measure] : 1;
}

/** The nearest line of each limit, nearest first. */
export function nearestPerLimit(lines: readonly IntervalLine[], so: Amounts): readonly IntervalLine[] {
  const nearest = new Map<GoverningLimit, IntervalLine>();
  for (const line of lines) {
    const known = nearest.get(line.limit);
    if (known === undefined || daysAt(line, so) < daysAt(known, so)) nearest.set(line.limit, line);
  }
  return [...nearest.values()].sort((a, b) => daysAt(a, so) - daysAt(b, so));
}
