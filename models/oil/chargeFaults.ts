import type { UnitHistory } from '../schema/history.ts';
import { dayOf } from './usageDay.ts';

/** A fault that spoils oil, from the day it was found until it was put right. */
export interface OilFault {
  readonly name: 'oil_level_low' | 'ventilation_fault' | 'thermostat_open' | 'filter_wrong';
  readonly foundDay: number;
  /** day of the repair on record; null: none */
  readonly repairedDay: number | null;
  /** litres missing, L; 0 for other faults */
  readonly liters: number;
}

const names = {
  oil_level_low_l: 'oil_level_low',
  ventilation_fault: 'ventilation_fault',
  thermostat_open: 'thermostat_open',
  filter_wrong: 'filter_wrong',
} as const;

const repairs: Readonly<Record<string, string>> = {
  ventilation_fault: 'ventilation_valve',
  thermostat_open: 'thermostat',
};

// generic code for a coolant temperature that stays below what the thermostat should hold (SAE J2012)
const coldThermostatCode = 'P0128';

/** Yes unless the value says no: `no`, `false`, `0`, `negative`, `ok`. */
export function saysYes(value: string | null): boolean {
  if (value === null) return true;
  return !/^\s*(no|n|false|0(\.0*)?|neg(ative)?|none|ok|nein|non|nej)\s*$/i.test(value);
}

/**
 * Faults on record that spoil oil. A low level is what is missing in litres; a value of no ends nothing and starts nothing.
 * @param history the unit's records
 * @param asOfDay days since 1970-01-01; later records are left out
 * @returns in order of day
 */
export function oilFaults(history: UnitHistory, asOfDay: number): readonly OilFault[] {
  const faults: OilFault[] = [];
  const repairedAfter = (name: OilFault['name'], day: number): number | null => {
    const work = repairs[name];
    if (work === undefined) return null;
    const days = history.services
      .filter((service) => service.read.works.some((one) => one === work))
      .map((service) => dayOf(service.servicedOn))
      .filter((repaired) => repaired >= day && repaired <= asOfDay);
    return days.length > 0 ? Math.min(...days) : null;
  };
  const found = (name: OilFault['name'], day: number, liters: number) => {
    if (day <= asOfDay) faults.push({ name, foundDay: day, repairedDay: repairedAfter(name, day), liters });
  };
  for (const finding of history.findings) {
    const kind = finding.finding;
    if (!(kind in names)) continue;
    const name = names[kind as keyof typeof names];
    if (name === 'oil_level_low') {
      const liters = Number.parseFloat((finding.value ?? '').replace(',', '.'));
      if (Number.isFinite(liters) && liters > 0) found(name, dayOf(finding.foundOn), liters);
      else if (finding.value !== null && !Number.isFinite(liters) && saysYes(finding.value))
        found(name, dayOf(finding.foundOn), 1);
    } else if (saysYes(finding.value)) found(name, dayOf(finding.foundOn), 0);
  }
  for (const code of history.codes)
    if (code.code.trim().toUpperCase() === coldThermostatCode)
      found('thermostat_open', dayOf(code.seenOn), 0);
  return faults.sort(
    (a, b) => a.foundDay - b.foundDay || (a.name < b.name ? -1 : a.name > b.name ? 1 : a.liters - b.liters),
  );
}

/** Faults that a repair ends, not the next drain. */
const lasting: ReadonlySet<OilFault['name']> = new Set(['ventilation_fault', 'thermostat_open']);

/**
 * Faults that acted on the oil between two drains: found in the span, or found before and neither put right nor past the
 * next drain since; and those of them that no repair on record has ended.
 */
export function faultsDuring(
  faults: readonly OilFault[],
  startDay: number,
  endDay: number,
  previousStartDay: number,
): {
  readonly names: readonly string[];
  readonly open: readonly string[];
  readonly levelLowLiters: number;
} {
  const names = new Set<string>();
  const open = new Set<string>();
  let liters = 0;
  for (const fault of faults) {
    const here = fault.foundDay > startDay && fault.foundDay <= endDay;
    const lasts =
      lasting.has(fault.name) &&
      fault.foundDay > previousStartDay &&
      fault.foundDay <= startDay &&
      (fault.repairedDay === null || fault.repairedDay > startDay + 7);
    if (!here && !lasts) continue;
    names.add(fault.name);
    if (lasting.has(fault.name) && fault.repairedDay === null) open.add(fault.name);
    if (here) liters = Math.max(liters, fault.liters);
  }
  return { names: [...names].sort(), open: [...open].sort(), levelLowLiters: liters };
}
