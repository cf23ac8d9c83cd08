import type { Amount } from './workAmounts.ts';
import { hasOwnForeign, isDenied, isOtherFluid } from './workBeside.ts';
import type { Segment } from './workSegment.ts';
import type { Job } from './workThings.ts';

/** More than is lost when a filter alone is renewed. */
const lostLiters = 2.5;
const lost =
  /\b(?:lost|loss|ran out|run out|spilled|spilt|leaked|leaking|leak|leaked out|came out|drained out|dripped|poured out)\b/;
const putIn = new Set(['top_up', 'fill', 'renew']);

/** "New oil filter, 0.5 qt": beside a filter that was renewed alone, a little oil only makes up for what ran out. */
export function withLostOil(
  jobs: readonly Job[],
  segments: readonly Segment[],
  amounts: readonly Amount[],
): readonly Job[] {
  const isFilterAlone =
    jobs.some(({ work }) => work === 'filter') &&
    jobs.every(({ work }) => work === 'filter' || work === 'inspection' || work === 'other');
  if (!isFilterAlone) return jobs;
  const said = segments.flatMap(({ parts }) => parts.map(({ text }) => text)).join(' ');
  for (const [index, segment] of segments.entries()) {
    const liters = segment.parts.map(({ amount }) => amounts[amount]?.liters ?? 0).find((size) => size > 0);
    if (liters === undefined || isDenied(segment) || isOtherFluid(segment)) continue;
    if (hasOwnForeign(segment) || isOtherFluid(segments[index - 1])) continue;
    const isPutIn = segment.actions.every(({ action }) => putIn.has(action));
    if (!isPutIn || (liters >= lostLiters && !lost.test(said))) continue;
    return [...jobs, { work: 'top_up', sure: 0.8, segment }];
  }
  return jobs;
}
