import { dayFromIso, isoFromDay } from '../schema/day.ts';

/** The days between which a fleet's records lie; null for a store without dated records. */
export interface RecordSpan {
  readonly firstOn: string;
  readonly lastOn: string;
}

const defaultCount = 3;
const halfYearDays = 182;
/** A forecast from less than this has next to nothing to go by. */
const fewestDaysBefore = 90;

/**
 * Default origins: up to three, half-yearly, the last one horizon before the newest record.
 * @returns oldest first; empty when the records are too short for one
 */
export function defaultOrigins({ firstOn, lastOn }: RecordSpan, horizonDays: number): string[] {
  const last = dayFromIso(lastOn) - horizonDays;
  return Array.from({ length: defaultCount }, (_, k) => last - (defaultCount - 1 - k) * halfYearDays)
    .filter((day) => day - dayFromIso(firstOn) >= fewestDaysBefore)
    .map(isoFromDay);
}

/**
 * Why a hindcast from these origins can't be made, in a line that says what to do, or null when it can.
 * @param asOf the day up to which records count
 */
export function originRefusal(
  origins: readonly string[],
  span: RecordSpan | null,
  asOf: string,
): string | null {
  if (span === null)
    return 'there are no dated records yet; bring service, reading or other dated records in first';
  for (const origin of origins) {
    if (origin > asOf) return `origin ${origin} lies after ${asOf}: what followed is not known yet`;
    if (origin < span.firstOn)
      return `origin ${origin} lies before the first record (${span.firstOn}): nothing was known on that day`;
    if (origin >= span.lastOn)
      return `origin ${origin} is not before the newest record (${span.lastOn}): nothing followed that could be scored`;
  }
  return origins.length === 0 ? 'no origins were given' : null;
}
