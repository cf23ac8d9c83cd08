const formats = new Map<string, Intl.DateTimeFormat | null>();

function formatOf(timeZone: string): Intl.DateTimeFormat | null {
  const known = formats.get(timeZone);
  if (known !== undefined) return known;
  let made: Intl.DateTimeFormat | null = null;
  try {
    made = new Intl.DateTimeFormat('en-US', {
      timeZone,
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
    });
  } catch {
    // a zone that the platform does not know counts as UTC; the plan says so
  }
  formats.set(timeZone, made);
  return made;
}

/** Whether the platform knows a time zone by this name. */
export function knowsZone(timeZone: string): boolean {
  return formatOf(timeZone) !== null;
}

/** Offset of a zone's wall clock from UTC at an instant, min. */
function offsetAt(format: Intl.DateTimeFormat, instantMs: number): number {
  const part: Record<string, number> = {};
  for (const { type, value } of format.formatToParts(instantMs)) part[type] = Number(value);
  const wall = Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute);
  return Math.round((wall - instantMs) / 60_000);
}

const found = new Map<string, number>();
const mostFound = 50_000;

/**
 * Offset of a zone's wall clock from UTC at a local day and minute, min; in the hour that a change of clocks leaves out or
 * repeats, the offset before or after it. An unknown zone counts as UTC.
 */
export function zoneOffset(timeZone: string, day: number, minute: number): number {
  const format = formatOf(timeZone);
  if (format === null) return 0;
  const key = `${timeZone}|${day}|${minute}`;
  const known = found.get(key);
  if (known !== undefined) return known;
  const wall = (day * 1440 + minute) * 60_000;
  const first = offsetAt(format, wall);
  const offset = offsetAt(format, wall - first * 60_000);
  if (found.size > mostFound) found.clear();
  found.set(key, offset);
  return offset;
}
