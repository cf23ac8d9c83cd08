import type { UnitTimeline } from '../oil/charge.ts';
import { oilCondition } from '../oil/condition.ts';
import { partOfExposure } from '../oil/condition.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { UnitHistory } from '../schema/history.ts';
import { unitRates, type RateMultipliers } from '../oil/exposure.ts';
import type { FillOf } from '../wear/segments.ts';
import type { Renewal } from '../wear/states.ts';

/** What one charge did to the engine by the model at rates that no evidence of the unit has moved. */
export interface NominalCharge {
  /** mean wear multiplier against fresh clean oil */
  readonly wearMultiplier: number;
  /** dispersancy used beyond the oil's own, 0 = within */
  readonly overrun: number;
  /** sludge in the middle of the charge, 0..10 */
  readonly sludge: number;
  /** soaked starts per engine hour */
  readonly startsPerHour: number;
}

/**
 * The course of wear by history alone: for the failure model, whose covariates must not know how a unit ended. A charge
 * that most likely hides drains is taken as that many charges.
 * @returns one entry per charge of the timeline
 */
export function nominalWear(
  timeline: UnitTimeline,
  fillOf: FillOf,
  renewals: readonly Renewal[],
  coefficients: Coefficients,
  rates: RateMultipliers = unitRates,
): readonly NominalCharge[] {
  let sludge = 0;
  return timeline.charges.map((charge) => {
    if (renewals.some((renewal) => renewal.part === 'engine' && sameDay(renewal.day, charge.startDay)))
      sludge = 0;
    const parts = charge.hiddenDrainChance > 0.5 ? charge.hiddenDrains + 1 : 1;
    const exposure = partOfExposure(charge.exposure, 1 / parts);
    const { fill, engine } = fillOf(charge);
    const { state, wear } = oilCondition(exposure, engine, fill, rates, coefficients);
    const before = sludge;
    for (let part = 0; part < parts; part += 1)
      sludge = Math.min(10, sludge + wear.sludge * (1 - sludge / 10));
    const starts = Math.min(
      exposure.distanceKm / Math.max(exposure.tripKm, 0.1),
      exposure.soakedStartsPerDay * exposure.days,
    );
    return {
      wearMultiplier: wear.wearMultiplier,
      overrun: Math.max(0, state.dispersancyUsed - 1),
      sludge: (before + sludge) / 2,
      startsPerHour: state.engineHours > 0 ? starts / state.engineHours : 0,
    };
  });
}

function sameDay(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1;
}

/**
 * Whether the history says anything of oil care: at least two recorded oil changes. An engine that was renewed came with
 * fresh oil, but tells nothing of drains.
 */
export function drainsRecorded(history: UnitHistory): boolean {
  return history.services.filter((service) => service.read.works.includes('oil_change')).length >= 2;
}
