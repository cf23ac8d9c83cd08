import type { UnitHistory } from '../schema/history.ts';
import type { DutyRules } from './dutyRules.ts';
import { firstDayOf, lastDayOf, totalOn, type MeterSet } from './meterSet.ts';
import { fuelBetween, type FuelRecord } from './usageFuel.ts';

const usualDisplacementL = 2.5;

/**
 * Fuel per distance of a unit from its own fills and meters, idling taken out: c = 100 (F − burn·displacement·h_idle)/D.
 * @param idleHoursPerKm idle hours per km where no meter tells them
 * @returns L/100 km and the distance it rests on; null where the record has gaps or is too short
 * Source: idle fuel per litre of displacement, US Department of Energy, Fact 861.
 */
export function ownFuelPer100Km(
  history: UnitHistory,
  meters: MeterSet,
  fuel: FuelRecord,
  rules: DutyRules,
  idleHoursPerKm: number,
): { readonly litersPer100Km: number; readonly km: number } | null {
  const { odometer, idle } = meters;
  const count = fuel.days.length;
  if (count < 3 || odometer.days.length < 2) return null;
  const to = Math.min(fuel.days[count - 1], lastDayOf(odometer));
  const from = Math.max(fuel.days[0], firstDayOf(odometer), to - 730);
  if (to - from < 14) return null;
  const liters = fuelBetween(fuel, from, to);
  const km = totalOn(odometer, to) - totalOn(odometer, from);
  if (liters === null || km < 200) return null;
  const metered = idle.days.length > 1 && firstDayOf(idle) <= from && lastDayOf(idle) >= to;
  const idleHours = metered ? totalOn(idle, to) - totalOn(idle, from) : km * idleHoursPerKm;
  const displacementL = history.engine?.displacementL ?? usualDisplacementL;
  const driving = liters - rules.idleFuelBurn * displacementL * idleHours;
  const litersPer100Km = (100 * Math.max(driving, 0.3 * liters)) / km;
  return litersPer100Km >= 2 && litersPer100Km <= 150 ? { litersPer100Km, km } : null;
}
