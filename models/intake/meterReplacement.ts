import { readNumber } from './numberText.ts';
import { unitFor } from './unitWords.ts';

/** Old meter's last value and new meter's first, in the stored unit. */
export interface MeterValues {
  readonly oldValue: number;
  readonly newValue: number;
}

const oldWords = 'old|alt|ancien|viejo|anterior|velho|vecchio|oud|stary|gammal|out|from|was';
const newWords = 'new|neu|nouveau|nuevo|novo|nuovo|nieuw|nowy|ny|in|to|now';
const number = `[=: ]+\\s*(\\d[\\d.,' ]*\\d|\\d)\\s*(km|mi|miles|h|hrs|hours)?`;
const oldShape = new RegExp(`(?:^|[^a-z])(?:${oldWords})${number}`, 'i');
const newShape = new RegExp(`(?:^|[^a-z])(?:${newWords})${number}`, 'i');

function valueOf(found: RegExpExecArray | null, meter: 'odometer' | 'hours'): number | null {
  if (found === null) return null;
  const read = readNumber((found[1] ?? '').trim(), ',');
  const grouped = readNumber((found[1] ?? '').trim(), '.');
  const chosen =
    /[.,]\d{3}$/.test(found[1] ?? '') && typeof grouped !== 'string' && typeof read !== 'string'
      ? Math.max(read.value, grouped.value)
      : typeof read === 'string'
        ? null
        : read.value;
  if (chosen === null) return null;
  const unit =
    found[2] === undefined ? null : unitFor(found[2].toLowerCase(), meter === 'odometer' ? 'km' : 'h');
  return unit === null ? chosen : Number((chosen * unit.factor).toPrecision(10));
}

/**
 * Reads `old=182000 new=12` from a note; a unit behind a value is converted.
 * @returns null when either value is missing
 */
export function meterValuesIn(note: string, meter: 'odometer' | 'hours'): MeterValues | null {
  const oldValue = valueOf(oldShape.exec(note), meter);
  const newValue = valueOf(newShape.exec(note), meter);
  return oldValue === null || newValue === null ? null : { oldValue, newValue };
}

/** Which meter a text of a meter replacement speaks of. */
export function meterNamed(text: string): 'odometer' | 'hours' {
  return /hour|hobbs|stunden|heures|horam|horo|horim|contaore|uren/i.test(text) ? 'hours' : 'odometer';
}
