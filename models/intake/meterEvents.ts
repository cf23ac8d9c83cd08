import { dayNumber, type CheckRecord } from './checkRecord.ts';
import { meterNamed, meterValuesIn } from './meterReplacement.ts';

/** A meter that was replaced: values after it count on from the old one's last. */
export interface MeterEvent {
  readonly day: number;
  /** null: not told, so nothing is known across that day */
  readonly oldValue: number | null;
  readonly newValue: number | null;
}

const textOf = (entry: CheckRecord, field: string) => {
  const value = entry.record[field];
  return typeof value === 'string' ? value : '';
};

/** Replacements of one meter that a unit's service rows tell of, by day: from a note, or from two rows of the day. */
export function meterEvents(
  meter: 'odometerKm' | 'engineHoursH',
  records: readonly CheckRecord[],
): MeterEvent[] {
  const wanted = meter === 'odometerKm' ? 'odometer' : 'hours';
  const byDay = new Map<number, CheckRecord[]>();
  for (const entry of records) {
    const day = dayNumber(entry);
    if (day === null || !entry.works.includes('meter_replaced')) continue;
    if (meterNamed(`${textOf(entry, 'work')} ${textOf(entry, 'note')}`) !== wanted) continue;
    byDay.set(day, [...(byDay.get(day) ?? []), entry]);
  }
  const events: MeterEvent[] = [];
  for (const [day, entries] of byDay) {
    const told = entries
      .map((entry) => meterValuesIn(`${textOf(entry, 'note')} ${textOf(entry, 'work')}`, wanted))
      .find((values) => values !== null);
    const shown = entries.map(({ record }) => record[meter]).filter((value) => typeof value === 'number');
    if (told !== undefined && told !== null) events.push({ day, ...told });
    else if (shown.length >= 2)
      events.push({ day, oldValue: Math.max(...shown), newValue: Math.min(...shown) });
    else events.push({ day, oldValue: null, newValue: null });
  }
  return events.sort((a, b) => a.day - b.day);
}

/**
 * A meter value counted on across replacements, and the stretch in which values can be compared.
 * @param events in order of day
 */
export function countedOn(
  value: number,
  day: number,
  events: readonly MeterEvent[],
): { value: number; stretch: number } {
  let offset = 0;
  let stretch = 0;
  for (const event of events) {
    if (event.day > day) break;
    if (event.oldValue === null || event.newValue === null) {
      if (event.day < day) {
        offset = 0;
        stretch += 1;
      }
      continue;
    }
    const shift = event.oldValue - event.newValue;
    // On the day itself a value can be of either meter: the nearer one.
    const isOld = event.day === day && Math.abs(value - event.oldValue) <= Math.abs(value - event.newValue);
    if (!isOld) offset += shift;
  }
  return { value: value + offset, stretch };
}
