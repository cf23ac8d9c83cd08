import type { UnitHistory } from '../schema/history.ts';
import type { Settings } from '../schema/settings.ts';
import type { DutyPrior, DutyRules } from './dutyRules.ts';
import { dutyClassOf, type DutyClass } from './dutyWords.ts';
import type { FuelSystem } from './exposure.ts';

/** Where the estimates of a unit's duty start before any record is seen. */
export interface DutyStart {
  readonly dutyClass: DutyClass;
  /** false: no word of the unit's duty or description is known, the mixed duty was taken */
  readonly recognised: boolean;
  readonly prior: DutyPrior;
  readonly kmPerHour: number;
  readonly litersPer100Km: number;
  readonly displacementL: number;
  readonly intervalKm: number;
  readonly intervalDays: number;
}

const usualDisplacementL = 2.5;

/**
 * Starting values of a unit: its duty's from the catalog, its engine's book interval where on record.
 * The book counts distance; with much idling the same wear comes at fewer kilometres, so the start is the book's distance
 * less what idling takes of it.
 */
export function priorOf(history: UnitHistory, rules: DutyRules, settings: Settings): DutyStart {
  const found = dutyClassOf(history.unit.duty) ?? dutyClassOf(history.unit.description);
  const dutyClass = found ?? 'mixed';
  const named = rules.priors[dutyClass];
  const hybrid = history.unit.powertrain === 'hybrid';
  const prior = hybrid ? { ...named, idleShare: named.idleShare * rules.hybridIdleFactor } : named;
  const system: FuelSystem = history.engine?.fuelSystem ?? 'GDI';
  const displacementL = history.engine?.displacementL ?? usualDisplacementL;
  const idlePerKm = prior.idleShare / (1 - prior.idleShare) / prior.speedKmh;
  const bookKm = history.engine?.bookIntervalKm ?? rules.intervalKm;
  const bookDays = (history.engine?.bookIntervalMonths ?? rules.intervalDays / 30.4) * 30.4;
  return {
    dutyClass,
    recognised: found !== null,
    prior,
    kmPerHour: prior.speedKmh * (1 - prior.idleShare),
    litersPer100Km: rules.fuelPerDistance[system] * displacementL,
    displacementL,
    intervalKm: bookKm / (1 + (settings.idleEquivalentKm * idlePerKm) / 2),
    intervalDays: bookDays,
  };
}
